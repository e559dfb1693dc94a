// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/frame_index.hpp"
#include "core/marks/marking.hpp"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace latemile {

/// A named moment of a step.
enum class Instant { Contact, MidStance, ToeOff, MidSwing };
inline constexpr std::size_t instantCount = 4;
inline constexpr std::array instantsInOrder{Instant::Contact, Instant::MidStance, Instant::ToeOff,
                                            Instant::MidSwing};
[[nodiscard]] std::string_view
nameOf(Instant instant); ///< "contact", "mid-stance", "toe-off", "mid-swing"

/// From a foot's contact to the contact of the other foot; the stride goes on to the same foot's
/// next contact. What was not marked is absent; `gap` says where frames are missing.
struct Step {
    StepNumber number;
    Foot foot{};
    Origin origin{};
    Seconds contact{};
    std::optional<Seconds> toeOff;
    std::optional<Seconds> nextContact; ///< of the other foot, where the feet alternate
    std::optional<Seconds>
        strideEnd;        ///< next contact of the same foot, with the other foot's between
    Seconds eventError{}; ///< standard error of each of this step's own events
    bool gap{}; ///< frames are missing (> 1.5 frame intervals) between contact and next contact
    bool operator==(const Step&) const = default;

    [[nodiscard]] std::optional<Seconds> midStance() const; ///< half of the stance time
    [[nodiscard]] std::optional<Seconds>
    midSwing() const; ///< half-way from toe-off to the same foot's contact
};

/// The steps of a clip, in order of contact, numbered from 1. Never fails: faults of order are for
/// checkEvents. Error of an event without a stated one: T_f/sqrt(12) (GUM 4.3.7, a uniform
/// distribution) and half a frame of judgement, in quadrature.
[[nodiscard]] std::vector<Step> stepsOf(const std::vector<Stance>& stances,
                                        const FrameIndex& index);

/// The frame on which the landmarks of an instant are marked: for contact and toe-off the first
/// frame at or after the event, for mid-stance and mid-swing the frame nearest to it (of two
/// equally near the earlier). Nothing where the event is not marked or lies outside the clip.
[[nodiscard]] std::optional<FrameNumber> frameOf(const Step& step, Instant instant,
                                                 const FrameIndex& index);

} // namespace latemile
