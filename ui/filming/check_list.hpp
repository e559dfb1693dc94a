// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/filming/trust.hpp"

#include <QPointer>
#include <QWidget>

class QLabel;

namespace latemile::ui {

class ClipDocument;
class RemarkList;

/// What of a clip can be trusted, and what would help most.
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
    void tell();

    QPointer<ClipDocument> m_clip;
    RemarkList* m_list;
    QLabel* m_help;
};

} // namespace latemile::ui
