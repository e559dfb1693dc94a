// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"
#include "core/propose/pose_networks.hpp"
#include "core/propose/runner_search.hpp"

#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace latemile {

/// What is looked for in a clip's file, and in which order.
struct ClipSearch {
    std::filesystem::path clip;
    ClipOptions options;
    std::filesystem::path resources; ///< of the program: holds the pose network
    std::vector<FrameNumber> frames; ///< those wanted first stand first; at least one
    std::optional<RunnerBox> box;
    std::optional<CropPath> path; ///< where an earlier search in the clip found the runner
    std::shared_ptr<PoseNetworks> networks{}; ///< of an earlier search; none: opened for this one
};

struct SearchedClip {
    std::vector<FoundBody> found; ///< in order of time; not all where the search was ended
    std::optional<CropPath> path;
    /// Why a box round the runner is needed first, as a sentence; then nothing was looked for.
    std::string boxWanted;
};

/// Asked after each look with the share of the work done, 0 to 1; false ends the search. Called on
/// the threads that search, one call at a time.
using SearchGoesOn = std::function<bool(double share)>;

/// Looks at the frames, and before that for where the runner is from the first to the last of them,
/// on all of the machine's cores but one (eight at most: each takes 0.2 GB),
/// with a reader of its own. What was found when it is ended early is kept and comes back. Errors:
/// the network's file; a clip that cannot be read or is shorter than a step; a runner upside down;
/// ended before anything was found (Cancelled).
Outcome<SearchedClip> searchClipFile(const ClipSearch& search, const SearchGoesOn& goesOn);

} // namespace latemile
