// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/body.hpp"

namespace latemile::maker {

Body::Body(double height)
    : stature(height), thigh(0.245 * height), shank(0.246 * height),
      trunk((0.818 - 0.530) * height), upperArm(0.186 * height), forearm(0.146 * height),
      ear(0.110 * height), halfHips(0.050 * height), halfShoulders(0.105 * height),
      halfHead(0.044 * height), shoe(0.152 * height * 1.05),
      // A shoe's sole adds about 2 cm to the ankle's own height of 0.039.
      ankle{0.225 * shoe, 0.039 * height + 2.0}, ball{0.70 * shoe, 0.0}, toePivot{0.93 * shoe, 0.0},
      toe{shoe, 1.6}
{
}

} // namespace latemile::maker
