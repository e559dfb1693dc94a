// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/following.hpp"

#include "ui/document/clip_document.hpp"
#include "ui/document/commands/confirm_stances.hpp"
#include "ui/document/commands/follow_marks.hpp"
#include "ui/document/commands/propose_stances.hpp"
#include "ui/document/commands/remove_stance.hpp"
#include "ui/filming/work_bar.hpp"
#include "ui/keys/keys.hpp"
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

bool isProposal(const Stance& stance)
{
    return stance.origin != Origin::Placed;
}

} // namespace

Following::Following(MarkingFlow& flow, FollowPanel& panel, const Keys& keys, QObject* parent)
    : QObject(parent), m_flow(flow), m_panel(panel), m_keys(keys), m_work(new FollowWork(this)),
      m_upkeep(new PathUpkeep(this))
{
    connect(&panel, &FollowPanel::feetWanted, this, &Following::markFeet);
    connect(&panel, &FollowPanel::followWanted, this, &Following::follow);
    connect(&panel, &FollowPanel::contactsWanted, this, &Following::findContacts);
    connect(&panel, &FollowPanel::acceptContactsWanted, this, &Following::acceptContacts);
    connect(&panel, &FollowPanel::detailChosen, this, [this](int row) {
        if (row >= 0 && row < static_cast<int>(m_detailFrames.size())) {
            emit frameWanted(m_detailFrames[static_cast<std::size_t>(row)]);
        }
    });
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
    m_detailFrames.clear();
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
    m_detailFrames.clear();
    QStringList details;
    for (const FollowGap& gap : toldGaps(*result)) {
        details.append(fromUtf8(sentenceOf(gap)));
        m_detailFrames.push_back(gap.first);
    }
    m_panel.tell(followSummary(*result), "", details);
}

void Following::findContacts()
{
    if (!isUsable()) {
        return;
    }
    ClipDocument& clip = *m_flow.clip();
    Marking marking = clip.marking();
    std::erase_if(marking.stances, isProposal);
    const auto findings = latemile::findContacts(marking, clip.index(), clip.scene());
    if (!findings) {
        m_panel.tell(fromUtf8(findings.error().sentence), "doubt");
        return;
    }
    const auto stances = ProposeStances::withFound(clip, findings->stances);
    if (stances != clip.marking().stances) {
        clip.history().push(new ProposeStances(clip, findings->stances));
    }
    tellFound(*findings, static_cast<std::size_t>(std::ranges::count_if(stances, isProposal)));
    emit contactsFound();
}

void Following::tellFound(const ContactFindings& findings, std::size_t proposed)
{
    m_detailFrames.clear();
    QStringList remarks;
    for (const std::string& remark : findings.remarks) {
        remarks.append(fromUtf8(remark));
    }
    const QString told =
        proposed == 0
            ? tr("No contact was found beyond those marked.")
            : tr("Stances proposed: %1. %2 accepts one and goes on, %3 all, %4 removes one.")
                  .arg(proposed)
                  .arg(m_keys.textOf("marks.accept_contact"),
                       m_keys.textOf("marks.accept_contacts"), m_keys.textOf("marks.remove_step"));
    const QString remarked =
        remarks.isEmpty() ? QString() : u' ' + tr("To look at: %1.").arg(remarks.size());
    m_panel.tell(told + remarked, remarks.isEmpty() ? "" : "doubt", remarks);
}

/// After the step at hand, round the clip.
std::optional<StepNumber> Following::nextProposed() const
{
    const auto& stances = m_flow.clip()->marking().stances;
    const auto count = static_cast<int>(stances.size());
    const int here = m_flow.place() ? m_flow.place()->step.value : 0;
    for (int n = 1; n <= count; ++n) {
        const int step = (here + n - 1) % count + 1;
        if (isProposal(stances[static_cast<std::size_t>(step - 1)])) {
            return StepNumber{step};
        }
    }
    return std::nullopt;
}

void Following::acceptContact()
{
    if (!isUsable()) {
        return;
    }
    if (m_flow.place()) {
        accept(m_flow.place()->step);
    }
    if (const auto next = nextProposed()) {
        emit placeWanted({*next, Instant::Contact});
    } else {
        m_panel.tell(tr("All contacts and toe-offs are yours."), "");
    }
}

void Following::forgetPaths()
{
    m_upkeep->forget();
}

void Following::acceptContacts()
{
    if (!isUsable()) {
        return;
    }
    ClipDocument& clip = *m_flow.clip();
    if (std::ranges::any_of(clip.marking().stances, isProposal)) {
        clip.history().push(new ConfirmAllStances(clip));
        m_panel.tell(tr("All contacts found are accepted."), "");
    } else {
        m_panel.tell(tr("There is no proposed contact: find contacts first."), "doubt");
    }
}

void Following::accept(StepNumber step)
{
    ClipDocument& clip = *m_flow.clip();
    const auto at = static_cast<std::size_t>(step.value - 1);
    if (at < clip.marking().stances.size() && isProposal(clip.marking().stances[at])) {
        clip.history().push(new ConfirmStance(clip, at));
    }
}

void Following::reject(StepNumber step)
{
    ClipDocument& clip = *m_flow.clip();
    const auto at = static_cast<std::size_t>(step.value - 1);
    if (at < clip.marking().stances.size()) {
        clip.history().push(new RemoveStance(clip, at));
    }
}

} // namespace latemile::ui
