// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/following.hpp"

#include "ui/document/clip_document.hpp"
#include "ui/document/commands/follow_marks.hpp"
#include "ui/filming/work_bar.hpp"
#include "ui/marks/follow_panel.hpp"
#include "ui/marks/follow_words.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/marks/path_upkeep.hpp"
#include "ui/text/words.hpp"

#include <QUndoStack>

#include <algorithm>
#include <memory>

namespace latemile::ui {
namespace {

const auto workId = QStringLiteral("follow");

bool hasMark(const Marking& marking, Origin origin)
{
    return std::ranges::any_of(
        marking.marks, [origin](const auto& entry) { return entry.second.origin == origin; });
}

} // namespace

Following::Following(MarkingFlow& flow, FollowPanel& panel, QObject* parent)
    : QObject(parent), m_flow(flow), m_panel(panel), m_work(new FollowWork(this)),
      m_upkeep(new PathUpkeep(this))
{
    connect(&panel, &FollowPanel::feetWanted, this, &Following::markFeet);
    connect(&panel, &FollowPanel::followWanted, this, &Following::follow);
    connect(&panel.work(), &WorkBar::stopWanted, this, [this](const QString& id) {
        if (id == workId) {
            stop();
        }
    });
    connect(m_work, &FollowWork::progress, this,
            [this](int percent) { m_panel.work().setWork(workId, tr("Following"), percent); });
    connect(m_work, &FollowWork::followed, this, &Following::take);
    connect(m_work, &FollowWork::failed, this, [this](const QString& sentence) {
        m_panel.work().endWork(workId);
        m_panel.tell(sentence, "bad");
    });
    connect(&flow, &MarkingFlow::changed, this, &Following::tellButtons);
    connect(&flow, &MarkingFlow::feetDone, this, [this] {
        m_panel.tell(
            tr("Both feet are marked here. Do so on two more frames, follow them, then find "
               "the contacts."),
            "");
    });
}

void Following::setClip(ClipDocument* clip)
{
    m_panel.setVisible(!m_flow.asksOnly());
    m_panel.setEnabled(clip != nullptr);
    m_panel.tell({}, "");
    tellButtons();
}

bool Following::isUsable() const
{
    const ClipDocument* clip = m_flow.clip();
    return clip != nullptr && clip->isOpen() && !m_flow.asksOnly();
}

void Following::tellButtons()
{
    m_panel.setVisible(!m_flow.asksOnly());
    m_panel.setFollowed(m_flow.clip() != nullptr &&
                        hasMark(m_flow.clip()->marking(), Origin::Followed));
}

void Following::markFeet()
{
    if (!isUsable()) {
        return;
    }
    if (!isSideView(m_flow.clip()->scene().view)) {
        m_panel.tell(tr("Contacts are found in side views only: mark those of this clip by hand."),
                     "doubt");
        return;
    }
    m_panel.tell({}, "");
    m_flow.askFeet();
}

void Following::follow()
{
    if (!isUsable() || m_work->isBusy()) {
        return;
    }
    const ClipDocument& clip = *m_flow.clip();
    if (!hasMark(clip.marking(), Origin::Placed)) {
        m_panel.tell(tr("There is nothing to follow yet: place the landmarks of one step first, "
                        "then they are carried to the others."),
                     "doubt");
        return;
    }
    m_followed = m_flow.clip();
    m_panel.tell({}, "");
    m_work->follow({.file = clip.file(),
                    .options = clip.clipOptions(),
                    .marking = clip.marking(),
                    .clicks = clip.clicks()});
}

void Following::stop()
{
    m_work->stop();
    m_panel.work().endWork(workId);
    m_panel.tell(tr("Following was stopped; nothing was changed."), "");
}

void Following::take(const std::shared_ptr<const FollowResult>& result)
{
    m_panel.work().endWork(workId);
    if (!m_followed) {
        return; // The clip was taken away meanwhile.
    }
    auto command = std::make_unique<FollowMarks>(*m_followed, result->marks);
    if (command->isWork()) {
        m_followed->history().push(command.release());
    }
    m_upkeep->keep(*m_followed, result->flow);
    if (m_followed != m_flow.clip()) {
        return;
    }
    m_flow.setGaps(result->gaps);
    QStringList details;
    std::vector<FrameNumber> frames;
    for (const FollowGap& gap : toldGaps(*result)) {
        details.append(fromUtf8(sentenceOf(gap)));
        frames.push_back(gap.first);
    }
    m_panel.tell(followSummary(*result), "", details, std::move(frames));
}

void Following::forgetPaths()
{
    m_upkeep->forget();
}

} // namespace latemile::ui
