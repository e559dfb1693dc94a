// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/spline.hpp"

#include <algorithm>
#include <cassert>
#include <utility>

namespace latemile::maker {

namespace {
/// The slopes at the knots that make the curvature continuous (one pass down, one up a
/// three-diagonal system).
std::vector<double> knotSlopes(const std::vector<double>& x, const std::vector<double>& y,
                               double first, double last)
{
    const std::size_t n = x.size();
    std::vector<double> slopes(n, first);
    std::vector<double> carry(n, 0.0);
    for (std::size_t i = 1; i + 1 < n; ++i) {
        const double before = 1.0 / (x[i] - x[i - 1]);
        const double after = 1.0 / (x[i + 1] - x[i]);
        const double wanted =
            3.0 * ((y[i] - y[i - 1]) * before * before + (y[i + 1] - y[i]) * after * after);
        const double pivot = 2.0 * (before + after) - before * carry[i - 1];
        carry[i] = after / pivot;
        slopes[i] = (wanted - before * slopes[i - 1]) / pivot;
    }
    slopes[n - 1] = last;
    for (std::size_t i = n - 1; i-- > 1;) {
        slopes[i] -= carry[i] * slopes[i + 1];
    }
    return slopes;
}
} // namespace

Spline::Spline(std::vector<double> places, std::vector<double> values, double firstSlope,
               double lastSlope)
    : m_places(std::move(places)), m_values(std::move(values)),
      m_slopes(knotSlopes(m_places, m_values, firstSlope, lastSlope))
{
    assert(m_places.size() == m_values.size() && m_places.size() >= 2);
}

double Spline::at(double place) const
{
    const auto after = std::upper_bound(m_places.begin() + 1, m_places.end() - 1, place);
    const auto i = static_cast<std::size_t>(after - m_places.begin()) - 1;
    const double h = m_places[i + 1] - m_places[i];
    const double u = (place - m_places[i]) / h;
    const double rise = m_values[i + 1] - m_values[i];
    const double bend = m_slopes[i] * h;
    const double tail = m_slopes[i + 1] * h;
    return m_values[i] +
           u * (bend + u * (3 * rise - 2 * bend - tail + u * (bend + tail - 2 * rise)));
}

} // namespace latemile::maker
