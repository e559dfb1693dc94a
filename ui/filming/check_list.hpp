// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/filming/belt_remedy.hpp"

#include <QPointer>
#include <QWidget>

class QLabel;

namespace latemile::ui {

class ClipDocument;
class FilmCheck;
class RemarkList;

/// What of a clip can be trusted, what would help most, and where foot and belt disagree the one
/// correction, taken by a button.
class CheckList final : public QWidget {
    Q_OBJECT
public:
    explicit CheckList(QWidget* parent = nullptr);
    void setClip(ClipDocument* clip);
    [[nodiscard]] const std::vector<Remark>& remarks() const;
    /// The worst of all items; good while there is no clip.
    [[nodiscard]] Check::State worst() const;

signals:
    void changed();

private:
    void checkFilm();
    void tell();
    void takeRemedy();

    QPointer<ClipDocument> m_clip;
    std::optional<BeltRemedy> m_remedy;
    FilmCheck* m_film;
    bool m_isOriginal{true};
    int m_gesture{}; ///< each correction is a step back of its own
    RemarkList* m_list;
    QLabel* m_help;
};

} // namespace latemile::ui
