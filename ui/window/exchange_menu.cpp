// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/exchange_menu.hpp"

#include "core/exchange/clip_export.hpp"
#include "core/exchange/marks_import.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/document/commands/take_marks.hpp"
#include "ui/document/session_document.hpp"
#include "ui/film/film_dialog.hpp"
#include "ui/text/words.hpp"
#include "ui/window/main_window.hpp"

#include <QFileDialog>
#include <QMenu>
#include <QMessageBox>
#include <QUndoStack>

namespace latemile::ui {
namespace {

/// The clip in front with its frames; without one the window says what is missing.
ClipDocument* openClip(MainWindow& window)
{
    ClipDocument* clip = window.selection().clip();
    if (clip == nullptr || !clip->isOpen()) {
        window.tellFault(MainWindow::tr("Open a session with a clip first."));
        return nullptr;
    }
    return clip;
}

void tell(MainWindow& window, const QString& title, const Outcome<QString>& outcome)
{
    if (!outcome) {
        window.tellFault(fromUtf8(outcome.error().sentence));
        return;
    }
    auto* box =
        new QMessageBox(QMessageBox::Information, title, *outcome, QMessageBox::Ok, &window);
    box->setAttribute(Qt::WA_DeleteOnClose);
    box->setTextFormat(Qt::PlainText);
    box->open();
}

void askToExport(MainWindow& window)
{
    const ClipDocument* clip = openClip(window);
    const QString folder =
        clip == nullptr ? QString()
                        : QFileDialog::getExistingDirectory(
                              &window, MainWindow::tr("Numbers of the clip: into which folder?"));
    if (!folder.isEmpty()) {
        tell(window, MainWindow::tr("Numbers of the clip"),
             exportNumbers(*clip, folder.toStdString()));
    }
}

void askToTake(MainWindow& window)
{
    ClipDocument* clip = openClip(window);
    const QString file =
        clip == nullptr
            ? QString()
            : QFileDialog::getOpenFileName(&window, MainWindow::tr("Marks or contacts from a file"),
                                           {}, MainWindow::tr("Marks, contacts (*.csv *.json)"));
    if (!file.isEmpty()) {
        tell(window, MainWindow::tr("Marks from a file"), takeMarking(*clip, file.toStdString()));
    }
}

void showFilm(MainWindow& window)
{
    if (window.session() == nullptr) {
        window.tellFault(MainWindow::tr("Open a session with a marked clip first."));
        return;
    }
    auto* dialog = new FilmDialog(*window.session(), &window);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->open();
}

} // namespace

void addExchange(QMenu& menu, MainWindow& window)
{
    Keys& keys = window.keys();
    menu.addAction(keys.action("file.film", &window, [&window] { showFilm(window); }));
    menu.addAction(keys.action("file.numbers", &window, [&window] { askToExport(window); }));
    menu.addAction(keys.action("file.take_marks", &window, [&window] { askToTake(window); }));
}

Outcome<QString> exportNumbers(const ClipDocument& clip, const std::filesystem::path& folder)
{
    if (!clip.readings()) {
        return fail(Error::Kind::NotFound,
                    "The clip has no readings yet: mark a step of it first.");
    }
    const std::string& condition = clip.clip().condition;
    const std::string stem = condition.empty() ? "clip" : condition;
    ASSIGN_OR_RETURN(const auto made,
                     exportOf(clip.marked(), clip.facts(), *clip.readings(), stem));
    RETURN_IF_ERROR(writeExport(made, folder));
    QString words = MainWindow::tr("Written into %1:").arg(QString::fromStdString(folder.string()));
    for (const ExportedFile& file : made.files) {
        words += u'\n' + QString::fromStdString(file.name);
    }
    for (const std::string& sentence : made.leftOut) {
        words += u'\n' + fromUtf8(sentence);
    }
    return words;
}

Outcome<QString> takeMarking(ClipDocument& clip, const std::filesystem::path& file)
{
    ASSIGN_OR_RETURN(auto came,
                     importMarking(file, clip.index(), clip.facts().width, clip.facts().height));
    if (auto* stances = std::get_if<std::vector<Stance>>(&came)) {
        const auto count = static_cast<int>(stances->size());
        clip.history().push(new TakeStances(clip, std::move(*stances)));
        return MainWindow::tr("Stances that came in: %1.").arg(count);
    }
    const auto& marks = std::get<MarkMap>(came);
    clip.history().push(new TakeMarks(clip, marks));
    return MainWindow::tr("Marks that came in: %1.").arg(marks.size());
}

} // namespace latemile::ui
