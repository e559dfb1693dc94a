// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/grab.hpp"

#include "ui/window/main_window.hpp"
#include "ui/window/page_list.hpp"

#include <QCoreApplication>
#include <QDeadlineTimer>
#include <QDir>
#include <QElapsedTimer>
#include <QPixmap>
#include <QVariant>

#include <algorithm>

namespace latemile::ui {
namespace {

constexpr int quietMilliseconds = 700; ///< small pictures come one after another

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
    while (!deadline.hasExpired() && quiet.elapsed() < quietMilliseconds) {
        QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents | QEventLoop::AllEvents, 20);
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
