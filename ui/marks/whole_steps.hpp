// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/steps.hpp"

namespace latemile::ui {

class MarkingFlow;

/// Whether all of a near step's cells that are asked for are confirmed. A far step has too few
/// landmarks to learn from.
[[nodiscard]] bool isConfirmedWhole(const MarkingFlow& flow, const Step& step);
[[nodiscard]] bool isAnyConfirmedWhole(const MarkingFlow& flow);

} // namespace latemile::ui
