// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/measure.hpp"

#include <algorithm>

namespace latemile {

std::string_view symbolOf(Unit unit)
{
    switch (unit) {
    case Unit::Centimetre:
        return "cm";
    case Unit::Metre:
        return "m";
    case Unit::Degree:
        return "deg";
    case Unit::Percent:
        return "%";
    case Unit::Millisecond:
        return "ms";
    case Unit::StepsPerMinute:
        return "steps/min";
    case Unit::KilonewtonPerMetre:
        return "kN/m";
    case Unit::None:
        return "-";
    }
    return {};
}

const Measure* findMeasure(std::string_view id)
{
    const auto table = measureTable();
    const auto found =
        std::find_if(table.begin(), table.end(), [id](const Measure& m) { return m.id == id; });
    return found == table.end() ? nullptr : &*found;
}

} // namespace latemile
