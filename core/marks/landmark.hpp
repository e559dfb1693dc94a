// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <optional>
#include <string_view>

namespace latemile {

/// A body point a coach marks. Heel: back lower corner of the shoe; toe: its front; ankle: lateral
/// malleolus; hip: greater trochanter; heel-top (rear view): top of the heel counter.
enum class Landmark {
    Ear,
    Shoulder,
    Elbow,
    Wrist,
    Hip,
    Knee,
    Ankle,
    Heel,
    Toe,
    Asis,
    Psis,
    HeelTop
};
inline constexpr std::size_t landmarkCount = 12;

/// The nine points of a side view, in body order from the head down, as the coach is asked for
/// them.
inline constexpr std::array sideViewLandmarks{Landmark::Ear,   Landmark::Shoulder, Landmark::Elbow,
                                              Landmark::Wrist, Landmark::Hip,      Landmark::Knee,
                                              Landmark::Ankle, Landmark::Heel,     Landmark::Toe};

/// Which of a pair: near and far from the camera in a side view, the athlete's own left and right
/// in a rear or front view.
enum class BodySide { Near, Far, Left, Right };

/// How a mark or an event came to be. Only placed ones are the coach's word.
enum class Origin { Placed, Followed, Proposed };

enum class Foot { Left, Right };
[[nodiscard]] constexpr Foot otherFoot(Foot foot)
{
    return foot == Foot::Left ? Foot::Right : Foot::Left;
}

/// The words of the exchange files: "ear", "heel-top", "near", "placed", "left".
[[nodiscard]] std::string_view nameOf(Landmark landmark);
[[nodiscard]] std::string_view nameOf(BodySide side);
[[nodiscard]] std::string_view nameOf(Origin origin);
[[nodiscard]] std::string_view nameOf(Foot foot);
/// Nothing where the word is none of ours.
[[nodiscard]] std::optional<Landmark> landmarkNamed(std::string_view word);
[[nodiscard]] std::optional<BodySide> bodySideNamed(std::string_view word);
[[nodiscard]] std::optional<Origin> originNamed(std::string_view word);
[[nodiscard]] std::optional<Foot> footNamed(std::string_view word);

/// Standard error of one click in centimetres, per axis, until the coach's own was measured; a
/// choice of this project: ear 0.4, shoulder 0.8, elbow and wrist 0.6, hip 1.2, knee 0.7, ankle
/// 0.5, heel 0.4, toe 0.5, ASIS and PSIS 1.2, heel-top 0.4.
[[nodiscard]] double defaultClickError(Landmark landmark);

} // namespace latemile
