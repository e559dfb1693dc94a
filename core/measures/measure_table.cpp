// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/measure_tables.hpp"

namespace latemile {

namespace {

std::vector<Measure> wholeTable()
{
    std::vector<Measure> table;
    for (const auto& part :
         {upperBodyMeasures(), legMeasures(), swingMeasures(), timingMeasures(), rearMeasures()}) {
        table.insert(table.end(), part.begin(), part.end());
    }
    return table;
}

} // namespace

std::span<const Measure> measureTable()
{
    static const std::vector<Measure> table = wholeTable();
    return table;
}

} // namespace latemile
