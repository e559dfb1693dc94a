// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/document_fields.hpp"
#include "core/store/session_json.hpp"

namespace latemile {
namespace {

Outcome<std::optional<Consent>> consentFrom(const JsonField& athlete)
{
    ASSIGN_OR_RETURN(const auto field, athlete.maybe("consent"));
    if (!field) {
        return std::nullopt;
    }
    Consent consent;
    ASSIGN_OR_RETURN(consent.givenBy, field->text("given_by"));
    ASSIGN_OR_RETURN(const auto asGuardian, field->optionalBoolean("as_guardian"));
    consent.asGuardian = asGuardian.value_or(false);
    ASSIGN_OR_RETURN(consent.date, dateFrom(*field, "date"));
    ASSIGN_OR_RETURN(consent.until, optionalDateFrom(*field, "until"));
    return consent;
}

nlohmann::json toJson(const Consent& consent)
{
    nlohmann::json object{{"given_by", consent.givenBy}, {"date", consent.date}};
    if (consent.asGuardian) {
        object["as_guardian"] = true;
    }
    putIfAny(object, "until", consent.until);
    return object;
}

} // namespace

Outcome<Athlete> athleteFrom(const JsonField& document)
{
    // Like a scene, an athlete may be written by hand or by a script: without a version it is ours.
    ASSIGN_OR_RETURN(const auto stated, document.maybe("version"));
    if (stated) {
        RETURN_IF_ERROR(needVersion(document, storeVersion));
    }
    Athlete athlete;
    ASSIGN_OR_RETURN(athlete.code, document.text("code"));
    ASSIGN_OR_RETURN(athlete.name, document.optionalText("name"));
    ASSIGN_OR_RETURN(athlete.heightCm, document.optionalNumber("height_cm", {50.0, 260.0}));
    ASSIGN_OR_RETURN(athlete.legLengthCm, document.optionalNumber("leg_length_cm", {20.0, 160.0}));
    ASSIGN_OR_RETURN(athlete.massKg, document.optionalNumber("mass_kg", {10.0, 300.0}));
    ASSIGN_OR_RETURN(athlete.note, document.optionalText("note"));
    ASSIGN_OR_RETURN(const auto minor, document.optionalBoolean("minor"));
    athlete.minor = minor.value_or(false);
    ASSIGN_OR_RETURN(athlete.consent, consentFrom(document));
    athlete.unknown = unknownIn(document, {"version", "code", "name", "height_cm", "leg_length_cm",
                                           "mass_kg", "note", "minor", "consent"});
    return athlete;
}

nlohmann::json toJson(const Athlete& athlete)
{
    nlohmann::json object{{"version", storeVersion}, {"code", athlete.code}};
    putIfAny(object, "name", athlete.name);
    putIfKnown(object, "height_cm", athlete.heightCm);
    putIfKnown(object, "leg_length_cm", athlete.legLengthCm);
    putIfKnown(object, "mass_kg", athlete.massKg);
    putIfAny(object, "note", athlete.note);
    if (athlete.minor) {
        object["minor"] = true;
    }
    if (athlete.consent) {
        object["consent"] = toJson(*athlete.consent);
    }
    putUnknown(object, athlete.unknown);
    return object;
}

} // namespace latemile
