// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/frame_index.hpp"
#include "core/marks/marking.hpp"
#include "core/outcome.hpp"

#include <nlohmann/json_fwd.hpp>

#include <filesystem>
#include <map>
#include <string>

namespace latemile {

/// Which clip marks belong to, as an exchange file says it.
struct ClipPicture {
    std::string file; ///< its name alone
    int width{};      ///< of the upright picture, pixels
    int height{};
};

/// The marks as COCO keypoints (cocodataset.org, "Data format", 3. Keypoint detection): an image a
/// marked frame, one annotation on it; x and y from the top left corner of the upright picture, v
/// is 2 where the point is marked and 0 where not. Beside COCO's own fields each image has `frame`
/// and `time_s`, each annotation one `origin` and one `se_px` (null: the default) a keypoint, so
/// that nothing is lost on the way back.
[[nodiscard]] nlohmann::json cocoKeypoints(const Marking& marking, const FrameIndex& index,
                                           const ClipPicture& clip);

/// Marks from a file of COCO keypoints whose names are ours ("near_ear"). Where `origin` is absent
/// a point counts as proposed: nobody of ours placed it. Faults name file, place and what is wrong;
/// a picture of another size, a frame that the clip does not have, and two annotations on one
/// frame are faults.
Outcome<std::map<MarkKey, Mark>> readCoco(const std::filesystem::path& file,
                                          const FrameIndex& index, int width, int height);

} // namespace latemile
