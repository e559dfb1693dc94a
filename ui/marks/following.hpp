// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/marks/follow_work.hpp"

#include <QObject>
#include <QPointer>

namespace latemile::ui {

class ClipDocument;
class FollowPanel;
class MarkingFlow;
class PathUpkeep;

/// Following on the marks page: starts and stops the work, brings what came of it into the document
/// as one edit, and tells it on the panel.
class Following final : public QObject {
    Q_OBJECT
public:
    Following(MarkingFlow& flow, FollowPanel& panel, QObject* parent = nullptr);

    void setClip(ClipDocument* clip);
    [[nodiscard]] bool isBusy() const { return m_work->isBusy(); }
    [[nodiscard]] const PathUpkeep& upkeep() const { return *m_upkeep; }

    void markFeet();
    void follow();
    void stop();
    /// Followed marks were exchanged: corrected ones no longer take the old paths along.
    void forgetPaths();

private:
    [[nodiscard]] bool isUsable() const;
    void take(const std::shared_ptr<const FollowResult>& result);
    void tellButtons();

    MarkingFlow& m_flow;
    FollowPanel& m_panel;
    FollowWork* m_work;
    PathUpkeep* m_upkeep;
    QPointer<ClipDocument> m_followed; ///< the clip at work
};

} // namespace latemile::ui
