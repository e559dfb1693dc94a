// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/consent.hpp"

#include "core/store/session.hpp"

namespace latemile {

std::string whyNoConsent(const Athlete& athlete, std::string_view today)
{
    if (!athlete.consent) {
        return "No consent to be filmed and shown is noted for this athlete.";
    }
    const Consent& consent = *athlete.consent;
    if (consent.givenBy.empty() || consent.date.empty()) {
        return "The consent noted for this athlete does not say who gave it and when.";
    }
    if (athlete.minor && !consent.asGuardian) {
        return "The athlete is a minor: a guardian's consent is needed.";
    }
    // Dates of ISO 8601 stand in order as text.
    if (consent.date > today) {
        return "The consent noted for this athlete begins on " + consent.date + ".";
    }
    if (!consent.until.empty() && consent.until < today) {
        return "The consent noted for this athlete ended on " + consent.until + ".";
    }
    return {};
}

} // namespace latemile
