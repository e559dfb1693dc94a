// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"
#include "core/propose/body_paths.hpp"
#include "core/propose/pose_network.hpp"

#include <functional>
#include <optional>
#include <stop_token>
#include <vector>

namespace latemile {

/// How a search tells how far it is and learns that it is no longer wanted; both on the thread that
/// searches.
struct SearchWatch {
    std::stop_token stop;
    std::function<void(std::size_t done, std::size_t all)> tell; ///< may be empty
};

/// Gives the frames of the clip that is searched: a ClipReader's or FrameSource's `frame`.
using FrameReader = std::function<Outcome<Frame>(FrameNumber)>;

/// How far apart in time the runner is looked for before the frames between are looked at.
inline constexpr Seconds keyInterval{0.2};

/// A box that the coach drew round the runner, and on which frame.
struct RunnerBox {
    FrameNumber frame;
    Box box;
    bool operator==(const RunnerBox&) const = default;
};

/// Where the runner is on a picture: from a box the coach drew round her, or from the whole
/// picture. Errors: nobody there (NotFound); without a box, more than one person (Inconsistent);
/// somebody upside down or on her side, as where a rotation is missing (Unsupported).
Outcome<Crop> findRunner(PoseNetwork& network, const Picture& picture,
                         const std::optional<Box>& box);

/// Where the runner is first, as a path of one place: in the box; without one on the first of three
/// of `frames` (in order, at least one; the first, a third and two thirds of the way on) on which
/// she is found. Errors as findRunner's.
Outcome<CropPath> runnersStart(const FrameReader& read, const FrameIndex& index,
                               PoseNetwork& network, const std::vector<FrameNumber>& frames,
                               const std::optional<RunnerBox>& box);

/// Follows the runner from both ends of what is known of her path, in steps of a fifth of a second,
/// until it reaches the first and the last of `frames` (in order). Where she is not found it looks
/// on in the same place; the path reaches as far as was looked, so that it is looked there once.
Outcome<CropPath> pathOnward(const FrameReader& read, const FrameIndex& index, PoseNetwork& network,
                             const std::vector<FrameNumber>& frames, const CropPath& path,
                             const SearchWatch& watch);

/// Both: after it the frames may be looked at in any order, on several threads with a network each.
Outcome<CropPath> cropPathThrough(const FrameReader& read, const FrameIndex& index,
                                  PoseNetwork& network, const std::vector<FrameNumber>& frames,
                                  const std::optional<RunnerBox>& box, const SearchWatch& watch);

/// A fault for a clip shorter than a quick runner's step: no leg is told from the other there.
Outcome<void> needWholeStep(const FrameIndex& index);

/// What the network sees on each of `frames`, in their order; one look of the network a frame.
/// `box` is round her on the first of them. Errors also: a clip that is shorter than a step; stopped (Cancelled).
Outcome<std::vector<FoundBody>> searchClip(const FrameReader& read, const FrameIndex& index,
                                           PoseNetwork& network,
                                           const std::vector<FrameNumber>& frames,
                                           const std::optional<Box>& box, const SearchWatch& watch);

} // namespace latemile
