// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/marking.hpp"

#include <functional>
#include <string>
#include <vector>

namespace latemile {

/// A thigh or shank that is not as long on one frame as on the others of the clip: a rigid bone
/// cannot be, so a mark is misplaced or on the other leg.
struct OddBone {
    FrameNumber frame;
    Landmark upper{}; ///< hip (thigh) or knee (shank)
    Landmark lower{};
    double percent{}; ///< longer (+) or shorter (-) than the clip's median of this bone
    std::string sentence;
    bool operator==(const OddBone&) const = default;
};

/// Near side; a bone is odd from `boneLimitPercent` off the clip's median, judged from three frames
/// on. `toPlane` where the scene is known, else the identity: a scale takes no part in a ratio.
/// In order of frame.
inline constexpr double boneLimitPercent = 10.0;
[[nodiscard]] std::vector<OddBone> oddBones(const Marking& marking,
                                            const std::function<PlanePoint(PixelPoint)>& toPlane);

} // namespace latemile
