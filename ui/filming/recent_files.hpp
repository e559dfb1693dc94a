// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QStringList>

class QMenu;

namespace latemile::ui {

/// The video files added last, newest first, at most eight; kept in the settings.
[[nodiscard]] QStringList recentFiles();
void rememberFiles(const QStringList& files);

/// One entry a file, its path as `data`; a file that is gone is shown as such and cannot be chosen.
void fillWithRecentFiles(QMenu& menu);

} // namespace latemile::ui
