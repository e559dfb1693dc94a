// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/marking.hpp"
#include "core/outcome.hpp"
#include "core/propose/body_points.hpp"
#include "core/scene/scene.hpp"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace latemile {

/// What the network saw on one frame of a clip.
struct FoundBody {
    FrameNumber frame;
    Seconds time{};
    BodyPoints body;
};

/// Why a point is to be looked at before the others.
enum class Doubt { None, Faint, Jumps, OtherLength, AtEdge, LegUnsure, LegsAlike, TwoPlaces };
/// "it is hardly seen"; nothing to say of Doubt::None.
[[nodiscard]] std::string_view wordsFor(Doubt doubt);

/// Which of whose points.
struct BodyPart {
    BodySide side{};
    Landmark landmark{};
    constexpr auto operator<=>(const BodyPart&) const = default;
};

/// The way of one landmark through the clip; one entry a frame of its BodyPaths.
struct LandmarkPath {
    std::vector<PixelPoint> at; ///< smoothed over real time, of legs by their bones' lengths too
    std::vector<double> peak;   ///< of the heat map, 0 to 1
    std::vector<Doubt> doubt;
};

/// A runner seen from the side, by near and far side, where the network puts her landmarks: what it
/// errs by is not taken off.
struct BodyPaths {
    View view{};
    double trunkPx{}; ///< median of mid hip to mid shoulder
    std::vector<FrameNumber> frames;
    std::vector<Seconds> times;
    std::map<BodyPart, LandmarkPath> paths;
    std::vector<double> legSureness;  ///< one a frame: LegsSeen::sureness
    std::vector<std::string> remarks; ///< sentences for the coach

    /// +1 where the runner runs to the picture's right.
    [[nodiscard]] double forwardSign() const { return view == View::RightSide ? 1.0 : -1.0; }
};

/// Presence below which a frame is taken to show nobody.
inline constexpr double someoneFrom = 0.5;

/// A quick runner's step; no gait is told from less.
inline constexpr Seconds shortestStep{0.25};

/// A fault for a rear or front view, which the network's paths cannot be made of: asked before the
/// minutes that looking at a clip takes.
Outcome<void> needSideView(View view);

/// Legs that the network exchanged are put back, near and far told apart by the view, paths
/// smoothed, doubtful points flagged, legs held by their bones' lengths. `found` in order of time;
/// `view` none: told by which way the runner faces. `width`, `height` of the upright picture.
/// Errors: nobody found on any frame, or for less than a step while other frames show nobody (both
/// NotFound); a runner upside down, or facing another way than the view says; a rear or front view.
Outcome<BodyPaths> bodyPathsFrom(const std::vector<FoundBody>& found, std::optional<View> view,
                                 int width, int height);

} // namespace latemile
