// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/video_files.hpp"

#include "ui/filming/filming_page.hpp"

#include <QCheckBox>
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

QCheckBox* linkChoice(QWidget* parent)
{
    const auto key = QStringLiteral("filming/link");
    auto* box = new QCheckBox(FilmingPage::tr("Link only"), parent);
    box->setToolTip(FilmingPage::tr("Films are not copied into the session: they stay where they "
                                    "are, and are known again by their checksum."));
    box->setChecked(QSettings().value(key, false).toBool());
    QObject::connect(box, &QCheckBox::toggled, box,
                     [key](bool on) { QSettings().setValue(key, on); });
    return box;
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
