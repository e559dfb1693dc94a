// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/sheet/still.hpp"

#include <vector>

namespace latemile {

/// What a crop is made from: a still, where its hip is, and how large a pixel is there.
struct CropInput {
    Still* still{};
    PixelPoint hip;
    double cmPerPixel{1.0}; ///< 1 for all where one of the clips has no scale
};

/// Gives all stills crops of one size in centimetres and of stillAspect, with the hip at one place:
/// what differs between the pictures is then the runner, not the framing. All landmarks fit, with
/// room for the top of the head above the ear.
void cropAlike(const std::vector<CropInput>& stills);

} // namespace latemile
