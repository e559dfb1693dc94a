// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/libav_owners.hpp"

#include <array>
#include <cstdint>
#include <optional>

namespace latemile {

/// How a stored picture becomes upright: mirrored left for right first, then turned.
struct Orientation {
    int clockwiseDegrees = 0; ///< 0, 90, 180, 270
    bool isMirrored = false;
    bool operator==(const Orientation&) const = default;

    [[nodiscard]] bool swapsSides() const { return clockwiseDegrees % 180 != 0; }
};

/// The nine numbers of a display matrix (ISO/IEC 14496-12, 8.3.2; libav's display.h).
using DisplayMatrix = std::array<std::int32_t, 9>;
[[nodiscard]] std::optional<DisplayMatrix> displayMatrixOf(const AVStream& stream);

/// The nearest quarter turn, for matrices that turn by anything else.
[[nodiscard]] Orientation orientationOf(const DisplayMatrix& matrix);

} // namespace latemile
