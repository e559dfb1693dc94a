// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/picture.hpp"

#include <QImage>

namespace latemile::ui {

/// The same pixels as Qt sees them; nothing is copied. Empty for an empty picture.
[[nodiscard]] QImage imageOf(const Picture& picture);

} // namespace latemile::ui
