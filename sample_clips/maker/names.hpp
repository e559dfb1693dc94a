// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "sample_clips/maker/recipe.hpp"

#include <string>

namespace latemile::maker {

// The words of files and of the command line.
[[nodiscard]] std::string nameOf(Foot foot);       ///< left, right
[[nodiscard]] std::string nameOf(Landing landing); ///< rearfoot, midfoot, forefoot
[[nodiscard]] std::string nameOf(View view);       ///< left-side, right-side, rear
[[nodiscard]] std::string nameOf(Codec codec);     ///< h264, hevc, mpeg4, mjpeg, vp9, av1

} // namespace latemile::maker
