// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "sample_clips/maker/profile.hpp"

namespace latemile::maker {

/// The body's outlines for a runner of 167 cm, in cm. Limbs run from the joint nearer the trunk.
struct Outlines {
    Profile thigh, shorts, shank, upperArm, sleeve, forearm, hand, trunk, neck, head, hair, ear;
    Profile shoeRear, shoeFront; ///< along the sole from the heel; front is up
};
[[nodiscard]] const Outlines& sideOutlines();
[[nodiscard]] const Outlines& rearOutlines();

} // namespace latemile::maker
