// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"

#include <QSize>
#include <QString>

namespace latemile::ui {

class MainWindow;

/// Renders every page of the session that is open to `folder`/PAGE.png. Waits for frames and
/// readings, so that a picture shows what a coach would see after a moment.
Outcome<void> grabPages(MainWindow& window, const QString& folder, QSize size);

/// Lets the window work until nothing more is on its way, at most so long.
void settle(MainWindow& window, int milliseconds);

} // namespace latemile::ui
