// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"
#include "core/marks/marking.hpp"
#include "core/outcome.hpp"
#include "core/scene/scene.hpp"

#include <functional>
#include <string>
#include <vector>

namespace latemile {

/// What was found on the ground.
struct ContactFindings {
    std::vector<Stance> stances; ///< origin proposed, each with its error; in order of contact
    /// What to look at: a foot that is not followed, a break in the rhythm, a camera that pans.
    std::vector<std::string> remarks;
};

/// Contacts and toe-offs, between frames, from the followed (and placed) marks of heel and toe.
/// Two signs each, weighted by their errors:
///   contact  the foot has lost its speed over the ground (6 % of the range from standing to
///            swinging is left), and its lower end has stopped falling
///   toe-off  the toe moves over the ground (10 % of that range), and it has risen by 1.5 cm
/// The ground's own speed is the one the toe keeps while it is low: the belt's, or none over
/// ground. Where the coach has placed events of a foot, what the signs are off by there is taken
/// off everywhere. A stance whose contact is not in the clip is left out; where its toe-off is not,
/// it has none. Source of the signs:
/// kinematic event detection from foot speed and height is common practice; the levels and the
/// delays taken off are fitted on modelled runners of 2.3 to 3.6 m/s (choices of this project).
/// Needs heel and toe of a foot on the frames around its contacts (of proposed marks every 30 ms
/// are enough: bridged_marks.hpp); without any: Error::Kind::Inconsistent. Rear and front views are
/// refused.
Outcome<ContactFindings> findContacts(const Marking& marking, const FrameIndex& index,
                                      const Scene& scene);

/// Whether heel and toe of a foot are so unsure, proposed as a rule, that the pictures would tell
/// its contacts better than they do.
[[nodiscard]] bool arePicturesOfUse(const Marking& marking, const FrameIndex& index,
                                    const Scene& scene);

/// As above; where the pictures are of use, by them (pictured_times.hpp), which takes seconds.
/// Where they cannot be read, by the marks alone, and a remark says so. `goOn` is asked now and
/// then with the share done; false stops (Error::Kind::Cancelled).
Outcome<ContactFindings> findContacts(ClipReader& clip, const Marking& marking, const Scene& scene,
                                      const std::function<bool(double)>& goOn = {});

} // namespace latemile
