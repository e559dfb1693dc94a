// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace latemile::test {

/// One row of tests/outside/data/group_values.csv.
struct GroupValue {
    std::string measure;
    std::string unit;
    double mean{};
    double sd{};    ///< 0 where the source gives none
    double speed{}; ///< m/s; 0 where the source gives none
    std::string group;
};

/// The whole table; its `source` column names the papers.
std::vector<GroupValue> groupValues();

/// The least mean - 2 SD and the greatest mean + 2 SD of a measure over the groups measured at
/// speeds within `from` to `to` m/s: 95 of 100 people of such a group lie within.
struct Range {
    double low{};
    double high{};
};
Range groupRange(const std::string& measure, double from, double to);

/// One row of tests/outside/data/body_proportions.csv as a fraction of stature.
double bodyProportion(const std::string& quantity);

} // namespace latemile::test
