// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/profile.hpp"

#include "sample_clips/maker/spline.hpp"

#include <algorithm>
#include <cmath>

namespace latemile::maker {

namespace {
/// Width left near a rounded end, as a share.
double rounding(double fromEnd, double radius)
{
    if (radius <= 0.0 || fromEnd >= radius) {
        return 1.0;
    }
    const double u = 1.0 - std::max(fromEnd, 0.0) / radius;
    return std::sqrt(1.0 - u * u);
}
} // namespace

Profile::Profile(const std::vector<Point>& points, double roundStart, double roundEnd,
                 double fadeEnd)
    : m_begin(points.front().along), m_end(points.back().along),
      m_perCm(static_cast<double>(cells) / (m_end - m_begin)), m_fadeEnd(fadeEnd)
{
    std::vector<double> places;
    std::vector<double> fronts;
    std::vector<double> backs;
    for (const auto& point : points) {
        places.push_back(point.along);
        fronts.push_back(point.front);
        backs.push_back(point.back);
    }
    const Spline front(places, fronts, 0.0, 0.0);
    const Spline back(places, backs, 0.0, 0.0);
    for (std::size_t i = 0; i < cells + 2; ++i) {
        const double along = std::min(m_begin + static_cast<double>(i) / m_perCm, m_end);
        const double f = front.at(along);
        const double b = back.at(along);
        const double middle = 0.5 * (f - b);
        const double half = 0.5 * (f + b) * rounding(along - m_begin, roundStart) *
                            rounding(m_end - along, roundEnd);
        m_front[i] = middle + half;
        m_back[i] = half - middle;
        m_widest = std::max({m_widest, std::abs(m_front[i]), std::abs(m_back[i])});
    }
}

} // namespace latemile::maker
