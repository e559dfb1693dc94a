// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/athletes/forget_athlete.hpp"

#include "core/store/athlete_sessions.hpp"
#include "core/store/linked_film.hpp"
#include "ui/text/words.hpp"

#include <QCoreApplication>
#include <QSettings>
#include <QStringList>

#include <algorithm>

namespace latemile::ui {
namespace {

constexpr qsizetype mostNamed = 10; ///< the question must fit onto the screen

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
    QString words = QCoreApplication::translate(
                        "AthletesPage",
                        "Sessions: %1. Their clips, marks, notes and sheets go for good, and with "
                        "them the earlier versions kept beside them. Sheets and tables you saved "
                        "elsewhere stay, and so do backups of this computer; a flash disk (SSD) "
                        "may keep traces of deleted files until it uses their place again.")
                        .arg(sessionFoldersOf(folder).size());
    QStringList films;
    for (const auto& film : linkedFilmsIn(folder)) {
        films.append(fromUtf8(film.string()));
    }
    if (!films.isEmpty()) {
        words += QStringLiteral("\n\n") +
                 QCoreApplication::translate(
                     "AthletesPage", "Linked films stay where they are, for you to delete:") +
                 QStringLiteral("\n") + films.mid(0, mostNamed).join(QLatin1Char('\n'));
    }
    if (films.size() > mostNamed) {
        words += QStringLiteral("\n") + QCoreApplication::translate("AthletesPage", "and %1 more")
                                            .arg(films.size() - mostNamed);
    }
    return words;
}

} // namespace latemile::ui
