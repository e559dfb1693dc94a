// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/quantities.hpp"
#include "sample_clips/maker/frame_clock.hpp"
#include "sample_clips/maker/recipe.hpp"
#include "sample_clips/maker/room.hpp"
#include "sample_clips/maker/runner_model.hpp"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace latemile::maker {

/// The landmarks of one side, in the order of every array of marks here. The last two are for the
/// rear view: the top of the shoe's heel counter, and the rear iliac spine.
inline constexpr std::array<std::string_view, 11> landmarkNames{
    "ear", "shoulder", "elbow", "wrist", "hip", "knee", "ankle", "heel", "toe", "heel-top", "psis"};
using SideMarks = std::array<PixelPoint, landmarkNames.size()>;

/// Where the landmarks of one side are in the room, cm.
[[nodiscard]] std::array<Vec3, landmarkNames.size()> placesOf(const Pose& pose, Foot side);

/// One frame: exact places in the upright picture, hidden ones too.
struct FrameTruth {
    double seconds{};
    SideMarks left{};
    SideMarks right{};
};

/// One stance. Frame numbers count from 0; the rule's time of an event lies half-way between the
/// first frame that shows it and the frame before.
struct ContactTruth {
    Foot foot{};
    double contact{};         ///< s, exact
    double toeOff{};          ///< s, exact
    std::size_t firstOn{};    ///< first frame at or after contact; never 0
    std::size_t firstClear{}; ///< first frame at or after toe-off
    double ruleContact{};     ///< s
    double ruleToeOff{};      ///< s
};

/// A measure's value in the model, by the project's own ids and units.
struct TruthReading {
    std::string measure;
    std::string unit;
    std::optional<int> step{}; ///< 1 is the first contact listed; none: of the whole clip
    std::optional<Foot> foot{};
    std::string instant;
    double time{};      ///< s, exact
    double value{};     ///< at that exact time
    double ruleTime{};  ///< s: as a coach marks it, by the half-frame rule and the nearest frame
    double ruleValue{}; ///< of the model at the rule's times
};

/// All that is exactly known of a clip.
struct Truth {
    ClipRecipe recipe;
    std::vector<FrameTime> times; ///< one a frame
    std::vector<FrameTruth> frames;
    std::vector<ContactTruth> contacts; ///< those with both events after the first frame and
                                        ///< before the last, in order of time
    std::vector<TruthReading> readings;
    double legLengthCm{};   ///< hip to ground, standing in shoes
    PixelPoint scaleBottom; ///< of the pole's banded part
    PixelPoint scaleTop;
    double scaleLengthCm{};
    double groundY{};     ///< v of the belt below the middle of the picture
    double pixelsPerCm{}; ///< in the plane z = 0 (rear: x = 0), before roll and lens
    double focal{};       ///< pixels
};

/// The truth of a clip whose frames were taken at these times.
[[nodiscard]] Truth truthOf(const ClipRecipe& recipe, const RunnerModel& model,
                            std::vector<FrameTime> times);

} // namespace latemile::maker
