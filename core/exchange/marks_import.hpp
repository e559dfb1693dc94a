// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/frame_index.hpp"
#include "core/marks/marking.hpp"
#include "core/outcome.hpp"

#include <filesystem>
#include <map>
#include <variant>
#include <vector>

namespace latemile {

using MarkMap = std::map<MarkKey, Mark>;

/// Marks from a file of either kind: COCO keypoints where its name ends in ".json", else MARKS.csv.
/// Faults as of readCoco and readMarks.
Outcome<MarkMap> importMarks(const std::filesystem::path& file, const FrameIndex& index, int width,
                             int height);

/// The same, and contacts too: a table with a column contact_s is CONTACTS.csv.
Outcome<std::variant<MarkMap, std::vector<Stance>>>
importMarking(const std::filesystem::path& file, const FrameIndex& index, int width, int height);

} // namespace latemile
