// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "sample_clips/maker/colour.hpp"

#include <cstdint>
#include <vector>

namespace latemile::maker {

/// The look of the running belt: a loop of 320 cm with grain, scuffs and two painted bars, in lanes
/// across its width. Sums along the loop make a smeared look-up as cheap as a sharp one.
class BeltTexture {
public:
    explicit BeltTexture(std::uint64_t seed);
    /// The mean colour from `along - smear/2` to `along + smear/2` (cm, along the loop) in the lane
    /// of `across` (cm from the belt's middle).
    [[nodiscard]] Colour at(double along, double across, double smear) const;

private:
    [[nodiscard]] double summed(std::size_t lane, double along) const;
    std::vector<std::vector<double>> m_sums; ///< grey, per lane, one entry per millimetre
};

} // namespace latemile::maker
