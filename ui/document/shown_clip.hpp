// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/sheet/sheet_content.hpp"

namespace latemile::ui {

class ClipDocument;

/// What a sheet or a film is made from, as copies for work elsewhere; only of an open clip that has
/// readings.
[[nodiscard]] SheetClip shownClip(const ClipDocument& clip);

} // namespace latemile::ui
