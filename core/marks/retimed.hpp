// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/marking.hpp"

#include <vector>

namespace latemile {

/// The same events when the clip turns out to have been filmed at another rate: every real time is
/// scaled by `fromRate / toRate` (frames per real second, both > 0), so each stays on its frame.
[[nodiscard]] std::vector<Stance> retimed(std::vector<Stance> stances, double fromRate,
                                          double toRate);

} // namespace latemile
