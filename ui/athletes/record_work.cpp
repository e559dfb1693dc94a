// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/athletes/record_work.hpp"

#include "core/store/hand_over.hpp"
#include "ui/page/progress_box.hpp"

#include <QDir>
#include <QFileDialog>

namespace latemile::ui {

RecordWork::RecordWork(QWidget* window)
    : LongWork(window), m_window(window), m_box(new ProgressBox(*this, window))
{
}

void RecordWork::askToHandOver(const std::filesystem::path& athleteFolder)
{
    const QString ending = QStringLiteral(".zip");
    const QString name =
        QDir::home().filePath(QString::fromStdString(athleteFolder.filename().string()) + ending);
    const QString file = QFileDialog::getSaveFileName(m_window, tr("Hand over the whole record"),
                                                      name, tr("Records (*.zip)"));
    if (!file.isEmpty()) {
        const bool ends = file.endsWith(ending, Qt::CaseInsensitive);
        handOver(athleteFolder, (ends ? file : file + ending).toStdString());
    }
}

void RecordWork::askToTakeIn(const std::filesystem::path& library)
{
    const QString file = QFileDialog::getOpenFileName(m_window, tr("Take in a record"),
                                                      QDir::homePath(), tr("Records (*.zip)"));
    if (!file.isEmpty()) {
        takeIn(file.toStdString(), library);
    }
}

void RecordWork::handOver(const std::filesystem::path& athleteFolder,
                          const std::filesystem::path& zip)
{
    m_box->setWords(tr("Handing the record over"));
    start<std::filesystem::path>(
        [athleteFolder, zip](const Tell& tell) -> Outcome<std::filesystem::path> {
            RETURN_IF_ERROR(latemile::handOver(athleteFolder, zip, tell));
            return zip;
        },
        [this](const std::filesystem::path& made) {
            emit handedOver(QString::fromStdString(made.string()));
        });
}

void RecordWork::takeIn(const std::filesystem::path& zip, const std::filesystem::path& library)
{
    m_box->setWords(tr("Taking a record in"));
    start<std::filesystem::path>(
        [zip, library](const Tell& tell) { return latemile::takeIn(zip, library, tell); },
        [this](const std::filesystem::path& folder) {
            emit tookIn(QString::fromStdString(folder.string()));
        });
}

} // namespace latemile::ui
