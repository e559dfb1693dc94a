// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/video_files.hpp"

#include "ui/filming/filming_page.hpp"

#include <QFileDialog>
#include <QFileInfo>
#include <QMimeData>
#include <QSettings>
#include <QUrl>

namespace latemile::ui {

QStringList askForVideos(QWidget* window)
{
    QSettings settings;
    const QString key = QStringLiteral("filming/folder");
    QStringList files = QFileDialog::getOpenFileNames(
        window, FilmingPage::tr("Add clips"), settings.value(key).toString(),
        FilmingPage::tr("Videos (*.mp4 *.mov *.m4v *.mkv *.avi *.webm *.mts *.ts);;All files (*)"));
    if (!files.isEmpty()) {
        settings.setValue(key, QFileInfo(files.first()).absolutePath());
    }
    return files;
}

QStringList filesIn(const QMimeData& dragged)
{
    QStringList files;
    const auto urls = dragged.urls();
    for (const QUrl& url : urls) {
        if (url.isLocalFile() && !QFileInfo(url.toLocalFile()).isDir()) {
            files.append(url.toLocalFile());
        }
    }
    return files;
}

} // namespace latemile::ui
