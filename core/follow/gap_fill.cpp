// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/gap_fill.hpp"

// Boost 1.74's header calls isnan unqualified and does not include what declares it.
#include <cmath>
using std::isnan;
#include <boost/math/interpolators/pchip.hpp>

namespace latemile {

std::vector<double> shapePreserving(const std::vector<double>& x, const std::vector<double>& y,
                                    const std::vector<double>& where)
{
    auto knots = x;
    auto values = y;
    const boost::math::interpolators::pchip<std::vector<double>> curve(std::move(knots),
                                                                       std::move(values));
    std::vector<double> found;
    found.reserve(where.size());
    for (const double at : where) {
        found.push_back(curve(at));
    }
    return found;
}

} // namespace latemile
