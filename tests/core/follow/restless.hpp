// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>
#include <random>

namespace latemile::tests {

/// An error that changes within 25 ms, as that of the pose network's smoothed points does.
class Restless {
public:
    Restless(std::mt19937& random, double size) : m_random(random), m_size(size) {}
    double next()
    {
        constexpr double keeps = 0.7; // from frame to frame
        m_value = keeps * m_value + std::sqrt(1.0 - keeps * keeps) * m_size * m_normal(m_random);
        return m_value;
    }

private:
    std::mt19937& m_random;
    double m_size;
    std::normal_distribution<double> m_normal;
    double m_value{};
};

} // namespace latemile::tests
