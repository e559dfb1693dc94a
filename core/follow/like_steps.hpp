// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/follow/ground_times.hpp"

namespace latemile {

/// Events of a foot whose heel and toe are known to a centimetre or two only, as the pose network
/// sees them. Such paths never come to rest, so that a single contact may be found 90 ms off; but
/// one landing is like the next. From 120 ms before to 100 ms after it each is shifted in time
/// until its path lies best on the median path of all, which leaves contacts 1 to 5 ms off each
/// other, at the mean of what was found singly. Toe-offs are laid on each other the same way. Fewer
/// than three events of a kind stay as they are.
[[nodiscard]] std::vector<GroundTime> likeSteps(const FootMotion& foot,
                                                std::vector<GroundTime> times);

} // namespace latemile
