// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/theme/tokens.hpp"

#include <QString>

namespace latemile::ui {

/// What Qt's own palette cannot say: spacing, outlines, the focus ring. Widgets choose a role by
/// the dynamic properties `rank` ("title", "small", "quiet", "heading") and `state` ("good",
/// "doubt", "bad").
[[nodiscard]] QString styleSheetOf(const Tokens& tokens);

} // namespace latemile::ui
