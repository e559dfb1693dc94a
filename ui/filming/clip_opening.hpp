// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/clip_document.hpp"

#include <QObject>
#include <QPointer>

namespace latemile::ui {

class FilmSearch;
class FrameView;
class WorkBar;

/// What stands where the picture will be while a clip is opened, and where it cannot be: the
/// reason, with the way back once the file is there again, or to the new place of a linked film.
class ClipOpening final : public QObject {
    Q_OBJECT
public:
    ClipOpening(FrameView& view, WorkBar& work, QWidget* window);

    void setClip(ClipDocument* clip);
    /// What the bar of works was asked to stop; others' work is left alone.
    void stop(const QString& id);
    /// Looks for the film of the linked clip in a folder and below it.
    void searchIn(const std::filesystem::path& folder);

private:
    void listenTo(ClipDocument& clip);
    void listenToSearch();
    void tellUnread(const QString& sentence);
    void takeOffer();
    void openAgain();

    FrameView& m_view;
    WorkBar& m_work;
    QWidget* m_window;
    FilmSearch* m_search;
    QPointer<ClipDocument> m_clip;
};

} // namespace latemile::ui
