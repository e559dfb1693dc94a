// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

class QMainWindow;

namespace latemile::ui {

/// What the window remembers from one start to the next, in the settings.
struct WindowMemory {
    QString folder;     ///< opened last: a library or a session
    QString page;       ///< id of the page looked at last
    bool namesHidden{}; ///< whoever looks over the shoulder today does so tomorrow
};

void rememberWindow(const QMainWindow& window, const WindowMemory& memory);
/// Sizes the window as it was, or to most of the screen the first time.
[[nodiscard]] WindowMemory recallWindow(QMainWindow& window);

} // namespace latemile::ui
