// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/quantities.hpp"

#include <QString>

#include <optional>
#include <string>
#include <vector>

namespace latemile::ui {

class ClipDocument;

/// The chosen measures of one step as far as they can be read, in one line:
/// "Step 3, left: foot ahead of hip 17.5 ± 1.4 cm · not confirmed: knee bend 21.1 ± 3.0°".
[[nodiscard]] QString runningLine(const ClipDocument& clip, std::optional<StepNumber> step,
                                  const std::vector<std::string>& measures);

/// What the checks on bones and events say against the marking; empty while all is well.
[[nodiscard]] QString markingWarning(const ClipDocument& clip);

} // namespace latemile::ui
