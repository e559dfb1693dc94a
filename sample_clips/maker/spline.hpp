// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

namespace latemile::maker {

/// A cubic spline with given slopes at both ends: value, slope and curvature are continuous.
class Spline {
public:
    Spline() = default;
    /// `places` rising, as many as `values`, at least two; slopes in value per place.
    Spline(std::vector<double> places, std::vector<double> values, double firstSlope,
           double lastSlope);

    /// Beyond the ends the first and last pieces go on.
    [[nodiscard]] double at(double place) const;

private:
    std::vector<double> m_places;
    std::vector<double> m_values;
    std::vector<double> m_slopes;
};

} // namespace latemile::maker
