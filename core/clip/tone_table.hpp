// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/colour.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace latemile {

/// Brings high dynamic range to a screen of ordinary range: BT.2100 signal to display light, tone
/// mapping by the curve of ITU-R BT.2390 (so that 203 cd/m2, the reference white of BT.2408, stays
/// just below white), BT.2020 to BT.709 primaries, sRGB signal. A table of the whole colour cube,
/// since the way is too long to go for each pixel.
class ToneTable {
public:
    /// `peak`: the brightest light of the clip in cd/m2, as its mastering display had it.
    ToneTable(Colour::Transfer transfer, bool isWideGamut, double peak);

    /// One row of 16-bit R, G, B to 8-bit B, G, R, X.
    void convertRow(const std::uint16_t* rgb, std::uint8_t* bgrx, int pixels) const;

    /// Signal 0...1 in and out, without the table: what the table is made from.
    using Rgb = std::array<double, 3>;
    [[nodiscard]] static Rgb toned(const Rgb& signal, Colour::Transfer transfer, bool isWideGamut,
                                   double peak);

private:
    static constexpr int cells = 48; // a side
    static constexpr int knots = cells + 1;
    struct Knot {
        float r, g, b;
    };
    std::vector<Knot> m_knots;
};

} // namespace latemile
