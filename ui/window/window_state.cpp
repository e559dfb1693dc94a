// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/window_state.hpp"

#include <QGuiApplication>
#include <QMainWindow>
#include <QScreen>
#include <QSettings>

namespace latemile::ui {

void rememberWindow(const QMainWindow& window, const WindowMemory& memory)
{
    QSettings settings;
    settings.setValue(QStringLiteral("window/geometry"), window.saveGeometry());
    settings.setValue(QStringLiteral("window/folder"), memory.folder);
    settings.setValue(QStringLiteral("window/page"), memory.page);
    settings.setValue(QStringLiteral("window/names_hidden"), memory.namesHidden);
}

WindowMemory recallWindow(QMainWindow& window)
{
    const QSettings settings;
    const QByteArray geometry = settings.value(QStringLiteral("window/geometry")).toByteArray();
    if (geometry.isEmpty() || !window.restoreGeometry(geometry)) {
        const QSize screen = QGuiApplication::primaryScreen()->availableSize();
        window.resize(QSize(1440, 900).boundedTo(screen * 0.94));
    }
    return {.folder = settings.value(QStringLiteral("window/folder")).toString(),
            .page = settings.value(QStringLiteral("window/page")).toString(),
            .namesHidden = settings.value(QStringLiteral("window/names_hidden")).toBool()};
}

} // namespace latemile::ui
