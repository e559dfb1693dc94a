// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/marked_points.hpp"

#include <set>

namespace latemile {

std::vector<MarkedPoint> markedPoints(const Marking& marking)
{
    std::set<MarkedPoint> points;
    for (const auto& [key, mark] : marking.marks) {
        points.insert({key.side, key.landmark});
    }
    return {points.begin(), points.end()};
}

MarkedStretch markedStretch(const Marking& marking)
{
    if (marking.marks.empty()) {
        return {};
    }
    return {marking.marks.begin()->first.frame, marking.marks.rbegin()->first.frame};
}

std::string nameOf(const MarkedPoint& point)
{
    return std::string(nameOf(point.side)) + "_" + std::string(nameOf(point.landmark));
}

} // namespace latemile
