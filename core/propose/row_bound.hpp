// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/click_errors.hpp"
#include "core/marks/marking.hpp"

namespace latemile {

/// Of the near side, hip to shoulder, median over the frames that have both marked, pixels; 0 where
/// none has.
[[nodiscard]] double trunkPx(const Marking& marking);

/// A row of proposals is accepted unseen up to this standard error, in trunk lengths: 3 % (1.5 cm
/// of 50), or half as much again as a click of this landmark is wrong by, which is what a followed
/// mark is taken for (choices of this project). Above what can be had by clicking, below what the
/// shoulder and, where it is asked for, the toe are unsure by before the coach has confirmed a step
/// of the clip.
[[nodiscard]] double rowBoundInTrunks(Landmark landmark, const ClickErrors& clicks);
/// A found contact and its toe-off are taken with a cell or a row up to this standard error: one
/// and a half frames, or 12 ms where frames come faster, of which a coach stepping through them
/// would be unsure too (choices of this project). Above, they are to be looked at first.
[[nodiscard]] Seconds eventBound(Seconds frameInterval);
/// A proposal's standard error, pixels; one that states none, as from another program, counts as
/// 3 cm.
[[nodiscard]] double proposalError(const Mark& mark, double trunkPx);
/// From here on a proposal is taken for one that the network doubts, in trunk lengths: of such it
/// states 0.2 at least. One that following puts in two places (Doubt::TwoPlaces) may state less.
inline constexpr double doubtBoundInTrunks = 0.15;

} // namespace latemile
