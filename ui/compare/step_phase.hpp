// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/steps.hpp"

#include <optional>

namespace latemile::ui {

/// A share of a step, 0 at its contact and 1 at the contact of the other foot, so that two steps of
/// unlike length are shown at like moments.
[[nodiscard]] std::optional<FrameNumber> frameAtPhase(const Step& step, double phase,
                                                      const FrameIndex& index);

} // namespace latemile::ui
