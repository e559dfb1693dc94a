// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/marks/marks_file.hpp"

#include "core/csv.hpp"
#include "core/decimal_text.hpp"
#include "core/marks/marking_faults.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace latemile {

namespace {

/// Reads `column` by `named`; an unknown word is a fault that says which there are.
template <class Value, class Named>
Outcome<Value> wordOf(const CsvRow& row, std::string_view column, Named named,
                      std::string_view known)
{
    const auto word = row.text(column);
    if (const std::optional<Value> value = named(word)) {
        return *value;
    }
    return row.fault(column, "'" + word + "' is none of " + std::string(known));
}

Outcome<Origin> originOf(const CsvRow& row)
{
    if (row.isEmpty("origin")) {
        return Origin::Placed;
    }
    return wordOf<Origin>(row, "origin", originNamed, "placed, followed and proposed");
}

/// A time that is another frame's tells that the marks belong to another clip or capture rate.
Outcome<void> checkTime(const CsvRow& row, FrameNumber frame, const FrameIndex& index)
{
    ASSIGN_OR_RETURN(const auto time, row.optionalNumber("time_s"));
    const double own = index.time(frame).count();
    if (time && std::abs(*time - own) > 0.5 * index.interval(frame).count()) {
        return row.fault("time_s",
                         "frame " + std::to_string(frame.value) + " of the clip is at " +
                             decimalText(own, 4) + " s, not at " + decimalText(*time, 4) +
                             " s: these marks belong to another clip or another capture rate");
    }
    return {};
}

Outcome<Mark> markOf(const CsvRow& row)
{
    Mark mark;
    ASSIGN_OR_RETURN(mark.at.u, row.number("x_px"));
    ASSIGN_OR_RETURN(mark.at.v, row.number("y_px"));
    ASSIGN_OR_RETURN(mark.origin, originOf(row));
    ASSIGN_OR_RETURN(mark.sePx, row.optionalNumber("se_px"));
    return mark;
}

Outcome<MarkKey> keyOf(const CsvRow& row)
{
    ASSIGN_OR_RETURN(const auto frame, row.integer("frame"));
    ASSIGN_OR_RETURN(const auto side,
                     wordOf<BodySide>(row, "side", bodySideNamed, "near, far, left and right"));
    ASSIGN_OR_RETURN(
        const auto landmark,
        wordOf<Landmark>(row, "landmark", landmarkNamed,
                         "ear, shoulder, elbow, wrist, hip, knee, ankle, heel, toe, asis, psis and "
                         "heel-top"));
    return MarkKey{{frame}, side, landmark};
}

Outcome<Stance> stanceOf(const CsvRow& row, const FrameIndex& index)
{
    Stance stance;
    ASSIGN_OR_RETURN(stance.foot, wordOf<Foot>(row, "foot", footNamed, "left and right"));
    ASSIGN_OR_RETURN(const double contact, row.number("contact_s"));
    ASSIGN_OR_RETURN(const auto toeOff, row.optionalNumber("toe_off_s"));
    ASSIGN_OR_RETURN(stance.origin, originOf(row));
    ASSIGN_OR_RETURN(const auto se, row.optionalNumber("se_s"));
    stance.contact = Seconds{contact};
    if (toeOff) {
        stance.toeOff = Seconds{*toeOff};
    }
    if (se) {
        stance.se = Seconds{*se};
    }
    for (const auto& fault : {faultOf(stance), faultOf(stance, index)}) {
        if (fault) {
            return row.fault(fault->field, fault->what);
        }
    }
    return stance;
}

struct RowStance {
    const CsvRow* row;
    Stance stance;
};

Outcome<void> checkOverlaps(const std::vector<RowStance>& inOrder)
{
    std::array<const Stance*, 2> last{};
    for (const auto& [row, stance] : inOrder) {
        auto& earlier = last[static_cast<std::size_t>(stance.foot)];
        if (earlier) {
            if (const auto fault = faultBetween(*earlier, stance)) {
                return row->fault(fault->field, fault->what);
            }
        }
        earlier = &stance;
    }
    return {};
}

} // namespace

Outcome<std::map<MarkKey, Mark>> readMarks(const std::filesystem::path& file,
                                           const FrameIndex& index, int width, int height)
{
    ASSIGN_OR_RETURN(const auto table, CsvTable::read(file));
    RETURN_IF_ERROR(table.need({"frame", "side", "landmark", "x_px", "y_px"}));
    std::map<MarkKey, Mark> marks;
    for (const auto& row : table.rows()) {
        ASSIGN_OR_RETURN(const auto key, keyOf(row));
        ASSIGN_OR_RETURN(const auto mark, markOf(row));
        for (const auto& fault : {faultOf(key, mark), faultOf(key, mark, index, width, height)}) {
            if (fault) {
                return row.fault(fault->field, fault->what);
            }
        }
        RETURN_IF_ERROR(checkTime(row, key.frame, index));
        if (!marks.emplace(key, mark).second) {
            return row.fault("landmark", "the " + std::string(nameOf(key.side)) + " " +
                                             std::string(nameOf(key.landmark)) +
                                             " is marked twice on frame " +
                                             std::to_string(key.frame.value));
        }
    }
    return marks;
}

std::string marksText(const std::map<MarkKey, Mark>& marks, const FrameIndex& index)
{
    CsvText csv({"frame", "time_s", "side", "landmark", "x_px", "y_px", "origin", "se_px"});
    for (const auto& [key, mark] : marks) {
        csv.integer(key.frame.value).number(index.time(key.frame).count()).text(nameOf(key.side));
        csv.text(nameOf(key.landmark)).number(mark.at.u).number(mark.at.v);
        csv.text(nameOf(mark.origin)).number(mark.sePx);
        csv.endRow();
    }
    return csv.whole();
}

Outcome<std::vector<Stance>> readContacts(const std::filesystem::path& file,
                                          const FrameIndex& index)
{
    ASSIGN_OR_RETURN(const auto table, CsvTable::read(file));
    RETURN_IF_ERROR(table.need({"foot", "contact_s", "toe_off_s"}));
    std::vector<RowStance> rows;
    for (const auto& row : table.rows()) {
        ASSIGN_OR_RETURN(const auto stance, stanceOf(row, index));
        rows.push_back({&row, stance});
    }
    std::stable_sort(rows.begin(), rows.end(), [](const auto& a, const auto& b) {
        return a.stance.contact < b.stance.contact;
    });
    RETURN_IF_ERROR(checkOverlaps(rows));
    std::vector<Stance> stances;
    for (const auto& row : rows) {
        stances.push_back(row.stance);
    }
    return stances;
}

std::string contactsText(const std::vector<Stance>& stances)
{
    CsvText csv({"foot", "contact_s", "toe_off_s", "origin", "se_s"});
    for (const auto& stance : stances) {
        const auto seconds = [](const std::optional<Seconds>& s) {
            return s ? std::optional(s->count()) : std::nullopt;
        };
        csv.text(nameOf(stance.foot)).number(stance.contact.count()).number(seconds(stance.toeOff));
        csv.text(nameOf(stance.origin)).number(seconds(stance.se));
        csv.endRow();
    }
    return csv.whole();
}

} // namespace latemile
