// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/follow/contact_finder.hpp"
#include "ui/document/place_name.hpp"
#include "ui/marks/follow_work.hpp"

#include <QObject>
#include <QPointer>

namespace latemile::ui {

class ClipDocument;
class FollowPanel;
class Keys;
class MarkingFlow;
class PathUpkeep;

/// Following and finding contacts on the marks page: starts and stops the work, brings what came of
/// it into the document as one edit each, and tells it on the panel.
class Following final : public QObject {
    Q_OBJECT
public:
    Following(MarkingFlow& flow, FollowPanel& panel, const Keys& keys, QObject* parent = nullptr);

    void setClip(ClipDocument* clip);
    [[nodiscard]] bool isBusy() const { return m_work->isBusy(); }
    [[nodiscard]] const PathUpkeep& upkeep() const { return *m_upkeep; }

    void markFeet();
    void follow();
    void stop();
    void findContacts();
    /// Of the step at hand, where it is a proposal; then, or else, goes on to the next proposal.
    void acceptContact();
    void acceptContacts();
    void accept(StepNumber step);
    /// Followed marks were exchanged: corrected ones no longer take the old paths along.
    void forgetPaths();
    void reject(StepNumber step);

signals:
    void placeWanted(const latemile::ui::StepInstant& place);
    void frameWanted(latemile::FrameNumber frame);
    void contactsFound();

private:
    [[nodiscard]] bool isUsable() const;
    [[nodiscard]] std::optional<StepNumber> nextProposed() const;
    void take(const std::shared_ptr<const FollowResult>& result);
    void tellFound(const ContactFindings& findings, std::size_t proposed);
    void tellButtons();

    MarkingFlow& m_flow;
    FollowPanel& m_panel;
    const Keys& m_keys;
    FollowWork* m_work;
    PathUpkeep* m_upkeep;
    QPointer<ClipDocument> m_followed;       ///< the clip at work
    std::vector<FrameNumber> m_detailFrames; ///< where the rows of the panel's list lead
};

} // namespace latemile::ui
