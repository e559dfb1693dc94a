// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/marks/marking_faults.hpp"
#include "core/store/session_json.hpp"

#include <algorithm>
#include <array>

namespace latemile {

namespace {

constexpr std::int64_t lastFrame = std::int64_t{1} << 40;

tl::unexpected<Error> faultAt(const JsonField& row, const MarkingFault& fault)
{
    return fail(Error::Kind::Inconsistent,
                row.place() + "/" + std::string(fault.field) + ": " + fault.what + ".");
}

/// A word of a fixed list; `named` knows the list.
template <class Value>
Outcome<Value> word(const JsonField& row, std::string_view key,
                    std::optional<Value> (*named)(std::string_view))
{
    ASSIGN_OR_RETURN(const auto field, row.member(key));
    ASSIGN_OR_RETURN(const auto text, field.text());
    const auto value = named(text);
    return value ? Outcome<Value>(*value) : field.fault("'" + text + "' is no " + std::string(key));
}

std::optional<Seconds> secondsOf(std::optional<double> value)
{
    return value ? std::optional<Seconds>(*value) : std::nullopt;
}

Outcome<MarkKey> markKeyFrom(const JsonField& row)
{
    ASSIGN_OR_RETURN(const auto frameField, row.member("frame"));
    ASSIGN_OR_RETURN(const auto frame, frameField.integer(0, lastFrame));
    ASSIGN_OR_RETURN(const auto side, word(row, "side", &bodySideNamed));
    ASSIGN_OR_RETURN(const auto landmark, word(row, "landmark", &landmarkNamed));
    return MarkKey{{frame}, side, landmark};
}

Outcome<Mark> markFrom(const JsonField& row)
{
    ASSIGN_OR_RETURN(const double u, row.number("x_px"));
    ASSIGN_OR_RETURN(const double v, row.number("y_px"));
    ASSIGN_OR_RETURN(const auto origin, word(row, "origin", &originNamed));
    ASSIGN_OR_RETURN(const auto se, row.optionalNumber("se_px"));
    return Mark{{u, v}, origin, se};
}

Outcome<Stance> stanceFrom(const JsonField& row)
{
    ASSIGN_OR_RETURN(const auto foot, word(row, "foot", &footNamed));
    ASSIGN_OR_RETURN(const double contact, row.number("contact_s"));
    ASSIGN_OR_RETURN(const auto toeOff, row.optionalNumber("toe_off_s"));
    ASSIGN_OR_RETURN(const auto origin, word(row, "origin", &originNamed));
    ASSIGN_OR_RETURN(const auto se, row.optionalNumber("se_s"));
    const Stance stance{.foot = foot,
                        .contact = Seconds{contact},
                        .toeOff = secondsOf(toeOff),
                        .origin = origin,
                        .se = secondsOf(se)};
    if (const auto fault = faultOf(stance)) {
        return faultAt(row, *fault);
    }
    return stance;
}

} // namespace

Outcome<std::map<MarkKey, Mark>> marksFrom(const JsonField& rows)
{
    ASSIGN_OR_RETURN(const auto all, rows.items());
    std::map<MarkKey, Mark> marks;
    for (const auto& row : all) {
        ASSIGN_OR_RETURN(const auto key, markKeyFrom(row));
        ASSIGN_OR_RETURN(const auto mark, markFrom(row));
        if (const auto fault = faultOf(key, mark)) {
            return faultAt(row, *fault);
        }
        if (!marks.emplace(key, mark).second) {
            return row.fault("the " + std::string(nameOf(key.side)) + " " +
                             std::string(nameOf(key.landmark)) + " is marked twice on frame " +
                             std::to_string(key.frame.value));
        }
    }
    return marks;
}

Outcome<std::vector<Stance>> stancesFrom(const JsonField& rows)
{
    ASSIGN_OR_RETURN(const auto all, rows.items());
    std::vector<std::pair<Stance, const JsonField*>> read;
    for (const auto& row : all) {
        ASSIGN_OR_RETURN(auto stance, stanceFrom(row));
        read.emplace_back(std::move(stance), &row);
    }
    std::stable_sort(read.begin(), read.end(), [](const auto& a, const auto& b) {
        return a.first.contact < b.first.contact;
    });
    std::array<const Stance*, 2> earlier{};
    for (const auto& [stance, row] : read) {
        const Stance*& last = earlier[static_cast<std::size_t>(stance.foot)];
        const auto fault = last == nullptr ? std::nullopt : faultBetween(*last, stance);
        if (fault) {
            return faultAt(*row, *fault);
        }
        last = &stance;
    }
    std::vector<Stance> stances;
    for (auto& entry : read) {
        stances.push_back(std::move(entry.first));
    }
    return stances;
}

Outcome<std::set<MarkKey>> unseenFrom(const JsonField& rows)
{
    ASSIGN_OR_RETURN(const auto all, rows.items());
    std::set<MarkKey> unseen;
    for (const auto& row : all) {
        ASSIGN_OR_RETURN(const auto key, markKeyFrom(row));
        unseen.insert(key);
    }
    return unseen;
}

nlohmann::json toJson(const std::set<MarkKey>& unseen)
{
    auto rows = nlohmann::json::array();
    for (const auto& key : unseen) {
        rows.push_back({{"frame", key.frame.value},
                        {"side", nameOf(key.side)},
                        {"landmark", nameOf(key.landmark)}});
    }
    return rows;
}

nlohmann::json toJson(const std::map<MarkKey, Mark>& marks)
{
    auto rows = nlohmann::json::array();
    for (const auto& [key, mark] : marks) {
        nlohmann::json row{{"frame", key.frame.value},
                           {"side", nameOf(key.side)},
                           {"landmark", nameOf(key.landmark)},
                           {"x_px", mark.at.u},
                           {"y_px", mark.at.v},
                           {"origin", nameOf(mark.origin)}};
        if (mark.sePx) {
            row["se_px"] = *mark.sePx;
        }
        rows.push_back(std::move(row));
    }
    return rows;
}

nlohmann::json toJson(const std::vector<Stance>& stances)
{
    auto rows = nlohmann::json::array();
    for (const auto& stance : stances) {
        nlohmann::json row{{"foot", nameOf(stance.foot)},
                           {"contact_s", stance.contact.count()},
                           {"origin", nameOf(stance.origin)}};
        if (stance.toeOff) {
            row["toe_off_s"] = stance.toeOff->count();
        }
        if (stance.se) {
            row["se_s"] = stance.se->count();
        }
        rows.push_back(std::move(row));
    }
    return rows;
}

} // namespace latemile
