// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/follow/follow_result.hpp"
#include "core/follow/followed_path.hpp"
#include "core/marks/click_errors.hpp"

namespace latemile {

/// Variance of a placed mark per axis, reduced pixels²: as stated, else by `clicks`.
[[nodiscard]] double clickVariance(const Marking& marking, const MarkKey& placed,
                                   const ClickErrors& clicks, const PictureMap& map);

/// Adds the path of one side's landmark to a result: a mark on every frame of it without a placed
/// one, its error that of following and of the placed marks it hangs on; and its gaps. `marking`
/// holds the placed marks.
void addPath(FollowResult& result, BodySide side, Landmark landmark, const FollowedPath& path,
             const PictureMap& map, const Marking& marking);

} // namespace latemile
