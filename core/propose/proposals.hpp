// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/propose/body_paths.hpp"

#include <map>

namespace latemile {

/// A first guess of where a landmark is: never a fact, always with its error.
struct Proposal {
    PixelPoint at;
    double sePx{}; ///< standard error per axis, pixels
    double peak{}; ///< of the heat map, 0 to 1
    Doubt doubt{};
    bool operator==(const Proposal&) const = default;
};
using Proposals = std::map<MarkKey, Proposal>;

/// The proposals for every landmark the network knows, both sides, on every frame of the paths,
/// except where the coach has placed the mark. The network errs much the same way wherever the pose
/// is much the same, so what placed marks differ by from the paths is learned, landmark by
/// landmark: a constant in the direction of a limb and a part that changes with the pose of the leg
/// (kriging; Rasmussen & Williams 2006, 2.2). Before there are marks the constant is that of
/// systematicError. The standard error is what remains unknown of both, and the frame's own noise;
/// a doubtful point's is a fifth of the trunk at least. `marks` of any origin: only placed ones on
/// frames of the paths are learned from, and none where the path is in doubt.
[[nodiscard]] Proposals proposalsFrom(const BodyPaths& paths, const std::map<MarkKey, Mark>& marks);

/// Where a landmark is known to be, to learn from.
struct KnownPlace {
    PixelPoint at;
    double sePx{}; ///< per axis
};
using KnownPlaces = std::map<MarkKey, KnownPlace>;
[[nodiscard]] KnownPlaces placedPlaces(const std::map<MarkKey, Mark>& marks);
/// As proposalsFrom, from places however they came to be known, and on their frames too.
[[nodiscard]] Proposals proposalsTaughtBy(const KnownPlaces& known, const BodyPaths& paths);

/// As marks of origin proposed, for a Marking or a MARKS.csv.
[[nodiscard]] std::map<MarkKey, Mark> marksOf(const Proposals& proposals);

} // namespace latemile
