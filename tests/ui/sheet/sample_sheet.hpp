// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/sheet/sheet_content.hpp"
#include "ui/sheet/still_pictures.hpp"

namespace latemile {

/// A sheet of an invented athlete with everything a sheet can hold: four stills of a runner facing
/// left in a slightly rolled picture of 1280 x 720, six measures of which three changed clearly,
/// two cues.
[[nodiscard]] SheetContent sampleSheet();

/// The same with names, notes and cues as long as people write them.
[[nodiscard]] SheetContent crowdedSheet();

/// Grey pictures of the size of the sample's clip, one a still.
[[nodiscard]] ui::StillPictures greyPictures();

} // namespace latemile
