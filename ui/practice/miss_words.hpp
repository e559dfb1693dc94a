// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/practice/clip_truth.hpp"

#include <QString>

#include <vector>

namespace latemile::ui {

/// "Ear 2.1 px, 0.7 cm" of each mark of the frame; with a word of the whole frame where there are
/// several.
[[nodiscard]] QString marksText(const std::vector<MarkMiss>& misses);
/// "Left contact 4 ms late" of each event marked, in order of time.
[[nodiscard]] QString eventsText(const std::vector<EventMiss>& misses);

} // namespace latemile::ui
