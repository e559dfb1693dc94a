// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/follow/followed_path.hpp"
#include "core/follow/recurrence.hpp"

namespace latemile {

/// Adds seeds on the stretch's first and last frame. Between two seeds a landmark is followed from
/// both, but before the first and after the last from one alone, and drifts. What stands on the
/// outermost frame stood alike a stride farther inside, where it is known from both sides: from
/// there it is carried straight to that frame.
/// `times` one a frame of `pictures`. Nothing is added where the outermost seed of any landmark is
/// less than 0.05 s from that frame, or more than 0.5 s (longestAlone), where no stride comes round
/// again, or where a landmark is lost on the way.
void addEndSeeds(FigureSeeds& seeds, const RunnerPictures& pictures,
                 const std::vector<double>& times, const StrideRecurrences& strides);

} // namespace latemile
