// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/grab.hpp"

#include "ui/window/main_window.hpp"
#include "ui/window/page_list.hpp"

#include <QCoreApplication>
#include <QDeadlineTimer>
#include <QDir>
#include <QElapsedTimer>
#include <QPixmap>
#include <QTimer>
#include <QVariant>

#include <algorithm>

namespace latemile::ui {
namespace {

constexpr int quietMilliseconds = 300; ///< twice the longest pause a page makes before its work
constexpr int betweenLooks = 20;       ///< milliseconds

bool isBusy(MainWindow& window)
{
    // A page that reads more than the session's clips says so by its property.
    if (window.page() != nullptr && window.page()->property("busy").toBool()) {
        return true;
    }
    return window.session() != nullptr &&
           std::ranges::any_of(window.session()->clips(), [](const ClipDocument* clip) {
               return (!clip->isOpen() && clip->fault().isEmpty()) || clip->isReading() ||
                      clip->isBusy();
           });
}

} // namespace

void settle(MainWindow& window, int milliseconds)
{
    const QDeadlineTimer deadline(milliseconds);
    QElapsedTimer quiet;
    quiet.start();
    QTimer look; // else nothing would happen in a window at rest, and it be waited for for ever
    look.start(betweenLooks);
    while (!deadline.hasExpired() && quiet.elapsed() < quietMilliseconds) {
        // Without a length of time, with which it would spin instead of waiting.
        QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents | QEventLoop::AllEvents);
        if (isBusy(window)) {
            quiet.restart();
        }
    }
}

Outcome<void> grabPages(MainWindow& window, const QString& folder, QSize size)
{
    if (!QDir().mkpath(folder)) {
        return fail(Error::Kind::NotFound,
                    "The folder " + folder.toStdString() + " cannot be made: choose another.");
    }
    window.resize(size);
    window.show();
    QStringList pages{QStringLiteral("athletes")};
    for (const PageEntry& entry : pageList()) {
        pages.append(QString::fromLatin1(entry.id));
    }
    pages.append(QStringLiteral("help"));
    for (const QString& page : pages) {
        window.showPage(page);
        settle(window, 20000);
        const QString file = QStringLiteral("%1/%2.png").arg(folder, page);
        if (!window.grab().save(file)) {
            return fail(Error::Kind::DiskFull, "The picture " + file.toStdString() +
                                                   " cannot be written: is the disk full?");
        }
    }
    return {};
}

} // namespace latemile::ui
