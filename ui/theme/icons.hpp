// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QIcon>
#include <QString>

namespace latemile::ui {

/// One of our own drawings (resources/icons), in the ink of the theme at hand: drawn anew at each
/// size and resolution, paler where disabled, turned to paper on a pressed button.
[[nodiscard]] QIcon iconNamed(const QString& name);

} // namespace latemile::ui
