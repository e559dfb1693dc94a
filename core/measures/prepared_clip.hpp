// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/steps.hpp"
#include "core/measures/mark_tracks.hpp"
#include "core/measures/readings.hpp"
#include "core/scene/plane.hpp"

#include <array>
#include <optional>
#include <vector>

namespace latemile {

/// The near foot while its sole lies on the belt: medians over 25 to 50 % of the clip's near
/// stances. Takes the shape of the shoe and the incline of the belt out of foot angles and heights.
struct FlatFoot {
    double degrees{};                ///< sole against the level, toe up positive
    double degreesSe{};              ///< of that median
    PlanePoint heel;                 ///< cm
    double heelSe{};                 ///< cm, per axis
    std::vector<FrameNumber> frames; ///< ascending; those the medians are of
};

/// Mean distance of near shoulder and hip over the frames that have both.
struct TrunkLength {
    double cm{};
    double se{}; ///< of that mean, from the marks
    int frames{};
};

/// What the standing near foot says of the ground in a clip without a belt speed.
struct GroundWitness {
    double foot{};   ///< m/s, forward through the picture, 25 to 50 % of stance: 0 where it stands
    double footSe{}; ///< from the marks
    double runner{}; ///< m/s, forward through the picture: of the hip
    /// The foot moves at more than a tenth of the runner's speed over it (a choice of this
    /// project): a belt of unstated speed, or a camera that was turned along.
    bool moves{};
};

/// A marked clip made ready for reading: its plane fixed, its steps derived, its marks by frame.
struct PreparedClip {
    ClipConditions conditions;
    FrameIndex index;
    Seconds frameInterval{}; ///< median
    Plane plane;
    MarkTracks tracks;
    std::vector<Step> steps;
    /// Of each step: the frames of its instants, in the order of Instant.
    std::vector<std::array<std::optional<FrameNumber>, instantCount>> instantFrames;
    AthleteFacts athlete;
    ClickErrors clicks;               ///< of the coach who placed the marks
    std::optional<FlatFoot> flatFoot; ///< none: heel and toe are on no frame of the window
    std::optional<TrunkLength> trunk;
    std::optional<GroundWitness>
        ground; ///< side view without a belt speed, where foot and hip tell

    [[nodiscard]] std::optional<FrameNumber> frameOf(std::size_t step, Instant instant) const
    {
        return instantFrames[step][static_cast<std::size_t>(instant)];
    }
    /// The foot nearest the camera; nothing in rear and front view.
    [[nodiscard]] std::optional<Foot> nearFoot() const;
};
Outcome<PreparedClip> prepare(const MarkedClip& clip);

/// Nothing where the foot is not marked on three flat frames of a stance, or the hip not over 0.2
/// s.
[[nodiscard]] std::optional<GroundWitness> groundWitness(const PreparedClip& clip);

/// The near foot while flat, from heel and toe on one frame; side view.
[[nodiscard]] std::optional<FlatFoot> flatFootOf(const PreparedClip& clip);

} // namespace latemile
