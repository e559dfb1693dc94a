// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/follow/followed_flow.hpp"
#include "ui/document/long_work.hpp"

#include <QPointer>
#include <QTimer>

namespace latemile::ui {

class ClipDocument;

/// Keeps the followed marks of a clip true to the placed ones: where a mark is placed, moved or
/// taken away (an undo as well), its landmark is followed anew up to the neighbouring anchors, away
/// from the window's thread. Followed marks are worked out, not said by anyone, so this is no step
/// back of its own.
class PathUpkeep final : public LongWork {
    Q_OBJECT
public:
    explicit PathUpkeep(QObject* parent = nullptr);

    /// What following the clip gave; only the newest clip's paths are kept.
    void keep(ClipDocument& clip, std::shared_ptr<const FollowedFlow> flow);
    /// The followed marks are no longer those the paths gave: they stand as they are.
    void forget();
    /// Nothing waits and nothing runs.
    [[nodiscard]] bool isAtRest() const { return !isBusy() && !m_pause.isActive(); }

private:
    using Anew = std::map<MarkKey, std::optional<Mark>>;
    void followAnew();
    void take(Anew anew);

    QPointer<ClipDocument> m_clip;
    std::shared_ptr<const FollowedFlow> m_flow;
    std::map<MarkKey, PixelPoint> m_placed; ///< marks the paths stand for
    QTimer m_pause;                         ///< a drag makes many edits
    bool m_isTaking{};
};

} // namespace latemile::ui
