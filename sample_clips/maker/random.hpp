// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cstdint>

namespace latemile::maker {

/// A number in [0, 1) that depends on nothing but its three keys, so that a clip of a seed is the
/// same whatever is drawn first, and on every machine (the library's own distributions differ).
[[nodiscard]] double uniform(std::uint64_t seed, std::uint64_t channel, std::uint64_t index);
/// As above, from a normal distribution of mean 0 and standard deviation 1, cut at +-2.5.
[[nodiscard]] double normal(std::uint64_t seed, std::uint64_t channel, std::uint64_t index);

/// A slow, smooth, endless wandering about 0 with standard deviation 1 (0.15 to 0.9 Hz): what a
/// runner does between one step and the next without ever repeating it.
class Wander {
public:
    Wander(std::uint64_t seed, std::uint64_t channel);
    [[nodiscard]] double at(double seconds) const;

private:
    struct Wave {
        double turns; ///< radians per second
        double phase;
    };
    std::array<Wave, 4> m_waves{};
};

} // namespace latemile::maker
