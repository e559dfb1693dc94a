// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/marking.hpp"

#include <optional>

namespace latemile::ui {

/// The next of heel and toe, near and far, that is to be marked on a frame so that contacts can be
/// found from them; nothing when all four have their answer.
[[nodiscard]] std::optional<MarkKey> nextFootSeed(const Marking& marking, FrameNumber frame);

} // namespace latemile::ui
