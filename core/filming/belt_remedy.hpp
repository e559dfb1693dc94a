// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/filming/trust.hpp"

namespace latemile {

/// The one correction that makes foot and belt agree, ready to be taken by the coach; nothing takes
/// it by itself.
struct BeltRemedy {
    std::string about; ///< the check it answers: "belt" or "belt_scale"
    std::string words; ///< "Take 240 frames/s", "Make the scale line 194.3 cm"
    /// The scene once corrected. Where its capture rate differs from the clip's, the times of
    /// contacts are to be stated anew with it (core/marks/retimed).
    Scene scene;
};

/// Nothing where foot and belt agree, where the belt is not checked, and where no one correction
/// would do (the foot moves forwards).
[[nodiscard]] std::optional<BeltRemedy> beltRemedy(const FilmedClip& clip);

} // namespace latemile
