// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"
#include "core/follow/foot_times.hpp"

#include <functional>

namespace latemile {

/// Times the events of feet that are not sure anew, by the pictures.
///
/// Marks known to a centimetre or two only, as the pose network sees them, are off by something
/// that changes while the foot lands and leaves: their speed tells little of when. But where the
/// foot goes from one frame to others the pictures tell, wherever on it the landmarks are put. So
/// the foot is followed from its marks on one frame a stance, always at the same place of the
/// stance, on which they are off alike: contacts from 90 ms after where they are expected, toe-offs
/// from 60, 40 and 0 ms before (choices of this project). A toe-off is the mean of these and of
/// where the marks alone put it, each laid on its like (like_steps.hpp). An event that
/// is not found so, or a contact found more than 30 ms (1.5 frames of a slow clip) from where the
/// marks alone put it, is unsure by 40 ms or a frame, and left out within 100 ms of the first and
/// the last marked frame.
/// Feet that are sure stay as they are.
///
/// `goOn` is asked now and then with the share done; false stops (Error::Kind::Cancelled).
[[nodiscard]] Outcome<std::vector<FootTimes>>
timedByPictures(ClipReader& clip, const Marking& marking, const Plane& plane,
                std::vector<FootTimes> feet, const std::function<bool(double)>& goOn = {});

} // namespace latemile
