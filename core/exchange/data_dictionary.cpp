// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/data_dictionary.hpp"

#include "core/csv.hpp"
#include "core/measures/measure.hpp"

#include <array>
#include <string_view>

namespace latemile {

namespace {

struct Column {
    std::string_view table, name, unit, meaning;
};

constexpr std::array columns{
    Column{"marks", "frame", "-",
           "Place of the frame in the order of presentation, the first is 0"},
    Column{"marks", "time_s", "s", "Real time since the clip's first frame, slow motion undone"},
    Column{"marks", "side", "-",
           "near or far from the camera; from behind or in front the "
           "athlete's own left or right"},
    Column{"marks", "landmark", "-",
           "Body point: ear, shoulder, elbow, wrist, hip (greater "
           "trochanter), knee, ankle (lateral malleolus), heel, toe, "
           "asis, psis, heel-top"},
    Column{"marks", "x_px", "px", "From the left edge of the upright picture; pixel centres at .5"},
    Column{"marks", "y_px", "px", "From the top edge of the upright picture, downwards"},
    Column{"marks", "origin", "-",
           "placed by the coach, followed through the pictures, or proposed "
           "by the pose network"},
    Column{"marks", "se_px", "px", "Standard error per axis; empty: the default of the landmark"},
    Column{"contacts", "foot", "-", "left or right, the athlete's own"},
    Column{"contacts", "contact_s", "s", "Real time of the first contact, by the half-frame rule"},
    Column{"contacts", "toe_off_s", "s", "Real time of leaving the ground; empty: not marked"},
    Column{"contacts", "origin", "-", "placed, followed or proposed"},
    Column{"contacts", "se_s", "s", "Standard error of each event; empty: by the frame interval"},
    Column{"readings", "measure", "-", "Id of the measure"},
    Column{"readings", "unit", "-", "Unit of value and se"},
    Column{"readings", "step", "-", "Number of the step, the first is 1; empty: of the whole clip"},
    Column{"readings", "foot", "-", "Foot of the step; both: no single one"},
    Column{"readings", "instant", "-", "Moment or phase of the step that it is read at"},
    Column{"readings", "time_s", "s", "Real time of that moment"},
    Column{"readings", "value", "unit", "The reading; empty where it cannot be had"},
    Column{"readings", "se", "unit", "Its standard error"},
    Column{"readings", "reason", "-", "Why there is no value, or what to beware of"},
    Column{"readings", "confirmed", "-",
           "yes: read from what the coach placed and confirmed alone; no: not to be told anybody"},
    Column{"comparison", "measure", "-", "Id of the measure"},
    Column{"comparison", "unit", "-", "Unit of means, spreads and change"},
    Column{"comparison", "foot", "-", "Foot; both: no single one"},
    Column{"comparison", "fresh_n", "-", "Confirmed steps or strides early in the run"},
    Column{"comparison", "fresh_mean", "unit", "Their mean"},
    Column{"comparison", "fresh_sd", "unit", "Their standard deviation"},
    Column{"comparison", "fatigued_n", "-", "Confirmed steps or strides late in the run"},
    Column{"comparison", "fatigued_mean", "unit", "Their mean"},
    Column{"comparison", "fatigued_sd", "unit", "Their standard deviation"},
    Column{"comparison", "change", "unit", "Late less early"},
    Column{"comparison", "half_width", "unit", "Half of the change's 95 % interval"},
    Column{"comparison", "verdict", "-",
           "clear change, within error, too few steps, not comparable"},
    Column{"comparison", "reason", "-", "Why there is no other verdict"},
    Column{"comparison", "sentence", "-", "The change in plain words"},
};

std::string meaningOf(const Measure& measure)
{
    std::string meaning(measure.meaning);
    if (!measure.positive.empty()) {
        meaning += " Positive: " + std::string(measure.positive) + ".";
    }
    return std::string(measure.name) + ". " + meaning;
}

} // namespace

std::string dataDictionary(const OwnMeasures& own)
{
    CsvText csv({"table", "name", "unit", "meaning", "source"});
    for (const auto& column : columns) {
        csv.text(column.table).text(column.name).text(column.unit).text(column.meaning).empty();
        csv.endRow();
    }
    for (const auto* measure : own.all()) {
        csv.text("measure").text(measure->id).text(symbolOf(measure->unit));
        csv.text(meaningOf(*measure)).text(measure->source);
        csv.endRow();
    }
    return csv.whole();
}

} // namespace latemile
