// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/libav_owners.hpp"

#include <string>

namespace latemile {

/// How the numbers of a decoded frame are to be read as colours.
struct Colour {
    enum class Transfer { Standard, Pq, Hlg };

    int matrix = SWS_CS_ITU709; ///< libswscale's name of it
    bool isFullRange = false;
    bool isRgb = false;
    bool isWideGamut = false; ///< BT.2020 primaries
    Transfer transfer = Transfer::Standard;
    bool isAssumed = false; ///< the file does not say which matrix

    bool operator==(const Colour&) const = default;
    [[nodiscard]] bool isHighDynamicRange() const { return transfer != Transfer::Standard; }
};

/// From the frame's own tags. A file that names no matrix is read as BT.709 from 720 lines on, else
/// as BT.601: what television standards and most players do.
[[nodiscard]] Colour colourOf(const AVFrame& frame);

/// "BT.709, limited range"
[[nodiscard]] std::string inWords(const Colour& colour);

} // namespace latemile
