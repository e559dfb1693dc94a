// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/frame_index.hpp"
#include "core/marks/marking.hpp"
#include "core/outcome.hpp"

#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace latemile {

/// MARKS.csv: frame,time_s,side,landmark,x_px,y_px,origin,se_px. Columns may stand in any order;
/// time_s and se_px may be empty or absent. A fault is an Error naming file, line and column. Two
/// marks of one landmark on one frame, a frame the clip does not have, and a time that is not that
/// frame's are faults. `index` of the clip the marks belong to; `width` and `height` of its upright
/// picture: a mark may lie up to half a picture outside (a covered point is guessed), farther is a
/// fault.
Outcome<std::map<MarkKey, Mark>> readMarks(const std::filesystem::path& file,
                                           const FrameIndex& index, int width, int height);
[[nodiscard]] std::string marksText(const std::map<MarkKey, Mark>& marks, const FrameIndex& index);

/// CONTACTS.csv: foot,contact_s,toe_off_s,origin,se_s; real time. Returned in order of contact.
/// Toe-off before contact, times outside the clip and overlapping stances of one foot are faults.
Outcome<std::vector<Stance>> readContacts(const std::filesystem::path& file,
                                          const FrameIndex& index);
[[nodiscard]] std::string contactsText(const std::vector<Stance>& stances);

} // namespace latemile
