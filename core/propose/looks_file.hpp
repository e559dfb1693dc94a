// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/frame_index.hpp"
#include "core/files/file_system.hpp"
#include "core/outcome.hpp"
#include "core/propose/leg_turns.hpp"
#include "core/propose/runner_search.hpp"

#include <filesystem>
#include <optional>
#include <vector>

namespace latemile {

/// All that was seen of a clip and said about how to look at it, so that it is looked at once.
struct ClipLooks {
    std::vector<FoundBody> found; ///< in order of time
    std::optional<CropPath> path;
    std::optional<RunnerBox> box;
    LegTurns turns;
};

/// Kept beside the clip: "clips/fresh.mp4" has "clips/fresh.mp4.looks". Points to a ten-thousandth
/// of a pixel.
[[nodiscard]] std::filesystem::path looksFileOf(const std::filesystem::path& clip);
Outcome<void> keepLooks(const ClipLooks& looks, const FrameIndex& index,
                        const std::filesystem::path& clip, FileSystem& files = disk());
/// Of all clips of a folder: no exchange of legs is kept any more. What else is kept stays.
Outcome<void> forgetLegTurns(const std::filesystem::path& clipsFolder, FileSystem& files = disk());

/// Nothing where there are none, or they are damaged, of a file of another size or number of
/// frames, or by another network. Times are those of `index`: the capture rate may have been set
/// since.
[[nodiscard]] std::optional<ClipLooks>
looksOf(const FrameIndex& index, const std::filesystem::path& clip, FileSystem& files = disk());
/// Of `frames` (in order) alone; nothing where any of them has not been looked at.
[[nodiscard]] std::optional<ClipLooks> looksOf(const FrameIndex& index,
                                               const std::filesystem::path& clip,
                                               const std::vector<FrameNumber>& frames,
                                               FileSystem& files = disk());

} // namespace latemile
