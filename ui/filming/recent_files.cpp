// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/recent_files.hpp"

#include <QCoreApplication>
#include <QDir>
#include <QFileInfo>
#include <QMenu>
#include <QSettings>

namespace latemile::ui {
namespace {

constexpr qsizetype mostFiles = 8;
const auto key = QStringLiteral("filming/recent");

QString translated(const char* text)
{
    return QCoreApplication::translate("RecentFiles", text);
}

} // namespace

QStringList recentFiles()
{
    return QSettings().value(key).toStringList();
}

void rememberFiles(const QStringList& files)
{
    QStringList kept = files + recentFiles();
    kept.removeDuplicates();
    QSettings().setValue(key, kept.mid(0, mostFiles));
}

void fillWithRecentFiles(QMenu& menu)
{
    menu.clear();
    for (const QString& file : recentFiles()) {
        const QFileInfo info(file);
        // Two cameras name their files alike: the folder tells them apart. A name is no mnemonic.
        QString name = QStringLiteral("%1   %2").arg(info.fileName(), info.dir().dirName());
        name.replace(u'&', QStringLiteral("&&"));
        QAction* action = menu.addAction(
            info.isReadable()
                ? name
                : QStringLiteral("%1   (%2)").arg(name, translated("no longer there")));
        action->setData(file);
        action->setToolTip(file);
        action->setEnabled(info.isReadable());
    }
    if (menu.isEmpty()) {
        menu.addAction(translated("No file was added yet"))->setEnabled(false);
    }
}

} // namespace latemile::ui
