// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/follow/follow.hpp"
#include "ui/marks/cell_doubt.hpp"

#include <QString>

#include <vector>

namespace latemile::ui {

/// "6 landmarks followed. Lost on 2 stretches, doubtful on 1."
[[nodiscard]] QString followSummary(const FollowResult& result);
/// Those the coach is told of, the longest first: lost and doubtful, not what was bridged.
[[nodiscard]] std::vector<FollowGap> toldGaps(const FollowResult& result);

/// "followed, ± 1.4 px", "doubtful, ± 4.2 px", with what is missing: "followed, ± 1.4 px, 1
/// missing".
[[nodiscard]] QString doubtText(const CellDoubt& doubt);
/// The same as short as a cell is wide: "± 1.4 px", "? ± 4.2 px", "1 missing".
[[nodiscard]] QString shortDoubtText(const CellDoubt& doubt);
/// "heel", or "far heel" where it is not on the near side.
[[nodiscard]] QString wordFor(const MarkKey& key);

} // namespace latemile::ui
