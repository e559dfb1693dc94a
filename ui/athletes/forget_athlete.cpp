// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/athletes/forget_athlete.hpp"

#include "core/store/athlete_sessions.hpp"
#include "ui/text/words.hpp"

#include <QCoreApplication>
#include <QSettings>
#include <QStringList>

#include <algorithm>

namespace latemile::ui {
namespace {

/// "Ilse_Varga-01" and "ilse varga 01" are one name.
QString squeezed(const QString& text)
{
    QString letters;
    std::ranges::copy_if(text.toCaseFolded(), std::back_inserter(letters),
                         [](QChar c) { return c.isLetterOrNumber(); });
    return letters;
}

} // namespace

void forgetInSettings(const Athlete& athlete, const std::filesystem::path& folder)
{
    const QString below = QString::fromStdString(folder.string());
    QStringList names{squeezed(fromUtf8(athlete.name)), squeezed(fromUtf8(athlete.code))};
    names.removeAll(QString());
    const auto tells = [&](const QString& path) {
        return path.startsWith(below) || std::ranges::any_of(names, [&](const QString& name) {
                   return squeezed(path).contains(name);
               });
    };
    QSettings settings;
    const auto recent = QStringLiteral("filming/recent");
    QStringList files = settings.value(recent).toStringList();
    if (files.removeIf(tells) > 0) {
        settings.setValue(recent, files);
    }
    for (const auto& key : {QStringLiteral("filming/folder"), QStringLiteral("window/folder")}) {
        if (tells(settings.value(key).toString())) {
            settings.remove(key);
        }
    }
    settings.sync();
}

QString wordsForRemoval(const std::filesystem::path& folder)
{
    return QCoreApplication::translate(
               "AthletesPage",
               "Sessions: %1. Their clips, marks, notes and sheets go for good, and with them the "
               "earlier versions kept beside them. Sheets and tables you saved elsewhere stay.")
        .arg(sessionFoldersOf(folder).size());
}

} // namespace latemile::ui
