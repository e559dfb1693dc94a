// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/random.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace latemile::maker {

namespace {
// The finalizer of SplitMix64 (Steele, Lea and Flood 2014): each input bit moves half the outputs.
std::uint64_t stirred(std::uint64_t x)
{
    x += 0x9E3779B97F4A7C15ULL;
    x = (x ^ (x >> 30U)) * 0xBF58476D1CE4E5B9ULL;
    x = (x ^ (x >> 27U)) * 0x94D049BB133111EBULL;
    return x ^ (x >> 31U);
}
} // namespace

double uniform(std::uint64_t seed, std::uint64_t channel, std::uint64_t index)
{
    const auto bits = stirred(stirred(stirred(seed) ^ channel) ^ index);
    return static_cast<double>(bits >> 11U) * 0x1.0p-53;
}

double normal(std::uint64_t seed, std::uint64_t channel, std::uint64_t index)
{
    // Twelve uniforms less six are normal enough here and need no logarithm, whose last digit
    // differs between C libraries.
    double sum = -6.0;
    for (std::uint64_t i = 0; i < 12; ++i) {
        sum += uniform(seed, channel, index * 12 + i);
    }
    return std::clamp(sum, -2.5, 2.5);
}

Wander::Wander(std::uint64_t seed, std::uint64_t channel)
{
    for (std::size_t i = 0; i < m_waves.size(); ++i) {
        const double spread = uniform(seed, channel, 2 * i);
        const double hertz = 0.15 + 0.19 * (static_cast<double>(i) + spread);
        m_waves[i] = {2 * std::numbers::pi * hertz,
                      2 * std::numbers::pi * uniform(seed, channel, 2 * i + 1)};
    }
}

double Wander::at(double seconds) const
{
    double sum = 0;
    for (const auto& wave : m_waves) {
        sum += std::sin(wave.turns * seconds + wave.phase);
    }
    return sum / std::sqrt(static_cast<double>(m_waves.size()) / 2.0);
}

} // namespace latemile::maker
