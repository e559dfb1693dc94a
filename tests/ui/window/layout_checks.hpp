// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QStringList>

class QWidget;

namespace latemile::ui {

/// A widget as a failed check names it.
[[nodiscard]] QString describe(const QWidget& widget);
/// Labels and buttons that are not given the room their text takes.
[[nodiscard]] QStringList clippedIn(const QWidget& page);
/// Brothers in one layout that lie over each other.
[[nodiscard]] QStringList overlapsIn(const QWidget& page);
/// Controls a screen reader would have no word for.
[[nodiscard]] QStringList namelessIn(const QWidget& page);

} // namespace latemile::ui
