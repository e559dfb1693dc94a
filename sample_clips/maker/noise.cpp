// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/noise.hpp"

#include "sample_clips/maker/random.hpp"

#include <cmath>

namespace latemile::maker {

namespace {
constexpr std::size_t side = 64;

double eased(double u)
{
    return u * u * (3.0 - 2.0 * u);
}
} // namespace

Relief::Relief(std::uint64_t seed)
{
    m_heights.reserve(side * side);
    for (std::uint64_t i = 0; i < side * side; ++i) {
        m_heights.push_back(static_cast<float>(2.0 * uniform(seed, 200, i) - 1.0));
    }
}

double Relief::at(double x, double y) const
{
    const double fx = std::floor(x);
    const double fy = std::floor(y);
    const auto wrapped = [](double v) {
        return static_cast<std::size_t>(static_cast<std::int64_t>(v)) % side;
    };
    const std::size_t x0 = wrapped(fx);
    const std::size_t y0 = wrapped(fy);
    const std::size_t x1 = (x0 + 1) % side;
    const std::size_t y1 = (y0 + 1) % side;
    const double u = eased(x - fx);
    const double v = eased(y - fy);
    const double top = m_heights[y0 * side + x0] * (1 - u) + m_heights[y0 * side + x1] * u;
    const double low = m_heights[y1 * side + x0] * (1 - u) + m_heights[y1 * side + x1] * u;
    return top * (1 - v) + low * v;
}

} // namespace latemile::maker
