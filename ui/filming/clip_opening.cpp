// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/clip_opening.hpp"

#include "core/store/linked_film.hpp"
#include "ui/filming/clip_words.hpp"
#include "ui/filming/film_work.hpp"
#include "ui/filming/work_bar.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/text/words.hpp"

#include <QFileDialog>

namespace latemile::ui {
namespace {

const auto opening = QStringLiteral("opening");
const auto searching = QStringLiteral("searching");

/// The nearest folder of its old place that is still there: where to begin to look.
QString nearestFolder(std::filesystem::path film)
{
    std::error_code ignored;
    while (film.has_parent_path() && film != film.parent_path() &&
           !std::filesystem::is_directory(film, ignored)) {
        film = film.parent_path();
    }
    return fromUtf8(film.string());
}

} // namespace

ClipOpening::ClipOpening(FrameView& view, WorkBar& work, QWidget* window)
    : QObject(window), m_view(view), m_work(work), m_window(window), m_search(new FilmSearch(this))
{
    connect(&m_view, &FrameView::offerTaken, this, &ClipOpening::takeOffer);
    listenToSearch();
}

void ClipOpening::listenToSearch()
{
    connect(m_search, &FilmSearch::progress, this, [this](int percent) {
        m_work.setWork(searching, tr("Looking for the film"), percent);
    });
    connect(m_search, &FilmSearch::ended, this, [this] { m_work.endWork(searching); });
    connect(m_search, &FilmSearch::found, this, &ClipOpening::openAgain);
    connect(m_search, &FilmSearch::failed, this, &ClipOpening::tellUnread);
}

void ClipOpening::setClip(ClipDocument* clip)
{
    m_search->stop();
    m_work.endWork(opening);
    m_clip = clip;
    if (clip == nullptr) {
        return;
    }
    listenTo(*clip);
    if (clip->fault().isEmpty()) {
        m_view.setMessage(tr("Opening the clip…"));
    } else {
        tellUnread(clip->fault());
    }
}

void ClipOpening::listenTo(ClipDocument& clip)
{
    const QPointer<ClipDocument> heard = &clip;
    disconnect(&clip, nullptr, this, nullptr);
    disconnect(&clip.feed(), nullptr, this, nullptr);
    connect(&clip, &ClipDocument::failed, this, [this, heard](const QString& sentence) {
        if (heard == m_clip) {
            m_work.endWork(opening);
            tellUnread(sentence);
        }
    });
    connect(&clip, &ClipDocument::opened, this, [this, heard] {
        if (heard == m_clip) {
            m_work.endWork(opening);
        }
    });
    connect(&clip.feed(), &FrameFeed::opening, this, [this, heard](int percent) {
        if (heard && heard == m_clip) {
            m_work.setWork(opening, tr("Opening %1").arg(fromUtf8(heard->clip().file)), percent);
        }
    });
}

void ClipOpening::stop(const QString& id)
{
    if (id == opening && m_clip) {
        m_clip->feed().stopOpening();
    } else if (id == searching) {
        m_search->stop();
    }
}

void ClipOpening::tellUnread(const QString& sentence)
{
    const bool lost = m_clip && !lostFilmSentence(m_clip->file()).empty();
    m_view.setMessage(breakable(sentence));
    m_view.offer(lost ? tr("Find the film…") : tr("Open again"));
}

/// Its disk may be back by now: then there is nothing to look for.
void ClipOpening::takeOffer()
{
    if (!m_clip || m_search->isBusy()) {
        return;
    }
    if (lostFilmSentence(m_clip->file()).empty()) {
        openAgain();
        return;
    }
    const auto film = linkedFilmOf(m_clip->file()).value_or(std::filesystem::path());
    const QString folder = QFileDialog::getExistingDirectory(
        m_window, tr("Folder to look for the film in"), nearestFolder(film));
    if (!folder.isEmpty()) {
        searchIn(folder.toStdString());
    }
}

void ClipOpening::searchIn(const std::filesystem::path& folder)
{
    if (m_clip) {
        m_search->search(m_clip->file(), folder);
    }
}

void ClipOpening::openAgain()
{
    if (m_clip) {
        m_view.setMessage(tr("Opening the clip…"));
        m_clip->openAgain();
    }
}

} // namespace latemile::ui
