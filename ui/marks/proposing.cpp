// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/proposing.hpp"

#include "core/propose/row_bound.hpp"
#include "core/propose/search_frames.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/document/commands/exchange_legs.hpp"
#include "ui/document/commands/propose_marks.hpp"
#include "ui/filming/work_bar.hpp"
#include "ui/keys/keys.hpp"
#include "ui/marks/follow_panel.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/marks/propose_words.hpp"
#include "ui/marks/whole_steps.hpp"
#include "ui/page/resource_file.hpp"
#include "ui/text/words.hpp"

#include <QUndoStack>

#include <algorithm>
#include <iterator>
#include <set>
#include <utility>

namespace latemile::ui {
namespace {

const auto workId = QStringLiteral("propose");

bool isProposal(const Mark& mark)
{
    return mark.origin == Origin::Proposed && mark.sePx.has_value();
}

bool isPlaced(const Mark& mark)
{
    return mark.origin == Origin::Placed;
}

bool hasMark(const Marking& marking, bool (*is)(const Mark&))
{
    return std::ranges::any_of(marking.marks, [is](const auto& entry) { return is(entry.second); });
}

/// By what the network saw alone gaps are filled only, where a mark is placed: what stands there
/// may be joined with following.
void leaveStanding(std::map<MarkKey, Mark>& proposed, const Marking& marking)
{
    if (!hasMark(marking, isPlaced)) {
        return;
    }
    std::erase_if(proposed,
                  [&marking](const auto& entry) { return marking.find(entry.first) != nullptr; });
}

} // namespace

Proposing::Proposing(MarkingFlow& flow, FollowPanel& panel, const Keys& keys, QObject* parent)
    : QObject(parent), m_flow(flow), m_panel(panel), m_keys(keys),
      m_resources(resourceFile("pose").parent_path()), m_work(new ProposeWork(this)),
      m_seen(new SeenClips(this))
{
    connect(&panel, &FollowPanel::proposeWanted, this, &Proposing::propose);
    connect(&panel, &FollowPanel::exchangeWanted, this, &Proposing::exchangeLegs);
    connect(&panel.work(), &WorkBar::stopWanted, this, [this](const QString& id) {
        if (id == workId) {
            stop();
        }
    });
    connect(m_work, &ProposeWork::progress, this,
            [this](int percent) { m_panel.work().setWork(workId, workName(), percent); });
    connect(m_work, &ProposeWork::proposed, this, &Proposing::take);
    connect(m_work, &ProposeWork::failed, this, [this](const QString& sentence) {
        m_later.clear();
        m_panel.work().endWork(workId);
        m_panel.tell(sentence, m_work->isEndedEarly() ? "" : "bad");
    });
    connect(&flow, &MarkingFlow::changed, this, &Proposing::tellButtons);
}

Proposing::~Proposing()
{
    if (m_shown) {
        m_seen->keepTurns(*m_shown);
    }
}

void Proposing::setClip(ClipDocument* clip)
{
    if (m_shown) {
        m_seen->keepTurns(*m_shown);
    }
    m_shown = clip;
    if (clip != nullptr) {
        m_seen->watch(clip->history(), clip->file().parent_path());
    }
    leaveBox();
    tellButtons();
}

bool Proposing::isUsable() const
{
    const ClipDocument* clip = m_flow.clip();
    return clip != nullptr && clip->isOpen() && !m_flow.asksOnly();
}

void Proposing::tellButtons()
{
    m_panel.setProposed(m_flow.clip() != nullptr && hasMark(m_flow.clip()->marking(), isProposal));
}

/// Of two goes the first is for the cells.
QString Proposing::workName() const
{
    return m_later.empty() ? tr("Proposing") : tr("Cells first");
}

/// Of `frames` those not looked at yet.
std::vector<FrameNumber> Proposing::unseenOf(std::vector<FrameNumber> frames)
{
    std::set<FrameNumber> known;
    for (const FoundBody& body : m_seen->of(*m_flow.clip()).found) {
        known.insert(body.frame);
    }
    std::erase_if(frames, [&known](FrameNumber frame) { return known.contains(frame); });
    return frames;
}

/// What the cells are marked on.
std::vector<FrameNumber> Proposing::cellFrames() const
{
    std::vector<FrameNumber> frames;
    for (const StepInstant& place : m_flow.open()) {
        if (const auto frame = m_flow.frameOf(place)) {
            frames.push_back(*frame);
        }
    }
    std::ranges::sort(frames);
    frames.erase(std::ranges::unique(frames).begin(), frames.end());
    return frames;
}

void Proposing::propose()
{
    if (!isUsable() || m_work->isBusy()) {
        return;
    }
    if (const auto side = needSideView(m_flow.clip()->scene().view); !side) {
        m_panel.tell(fromUtf8(side.error().sentence), "doubt");
        return;
    }
    if (isAllProposed()) {
        m_panel.tell(tr("Every frame has its proposals. Confirm one step first: proposing again "
                        "learns from the marks you placed."),
                     "");
        return;
    }
    leaveBox();
    m_isQuiet = false;
    m_panel.tell({}, "");
    m_taughtBy.reset();
    m_isOtherRunner = false;
    begin();
}

/// Made in an earlier run of the program, and no mark placed to learn from.
bool Proposing::isAllProposed() const
{
    const Marking& marking = m_flow.clip()->marking();
    const auto frames = framesToSearch(m_flow.clip()->index());
    const auto proposed = std::ranges::count_if(frames, [&marking](FrameNumber frame) {
        const Mark* hip = marking.find({frame, BodySide::Near, Landmark::Hip});
        return hip != nullptr && isProposal(*hip);
    });
    return !hasMark(marking, isPlaced) && proposed == std::ssize(frames);
}

/// The frames the coach needs first, with what tells the legs there, then all others.
void Proposing::begin()
{
    ++m_piece;
    m_proposed = m_flow.clip();
    auto first = unseenOf(cellFrames());
    if (m_seen->of(*m_proposed).found.empty()) {
        first = withNeighbours(first, m_proposed->index());
    }
    auto all = unseenOf(framesToSearch(m_proposed->index()));
    if (first.empty()) {
        m_later.clear();
        look(std::move(all));
        return;
    }
    m_later.clear();
    std::ranges::set_difference(all, first, std::back_inserter(m_later));
    look(std::move(first));
}

void Proposing::look(std::vector<FrameNumber> frames)
{
    ClipDocument& clip = *m_proposed;
    const auto& known = m_seen->of(clip);
    m_work->propose({.search = {.clip = clip.file(),
                                .options = clip.clipOptions(),
                                .resources = m_resources,
                                .frames = std::move(frames),
                                .box = known.box,
                                .path = known.path},
                     .known = known.found,
                     .view = clip.scene().view,
                     .width = clip.feed().facts().width,
                     .height = clip.feed().facts().height,
                     .turns = *known.turns,
                     .marks = clip.marking().marks,
                     .clicks = clip.clicks(),
                     .follows = m_later.empty()});
}

void Proposing::fillCells()
{
    if (isUsable() && !m_work->isBusy() && m_seen->of(*m_flow.clip()).path &&
        !unseenOf(cellFrames()).empty()) {
        m_isQuiet = true;
        m_taughtBy.reset();
        begin();
    }
}

/// No look is taken for it: a coach who stopped looking is not made to wait for it now.
void Proposing::learnFrom(StepNumber step)
{
    if (!isUsable() || m_work->isBusy()) {
        return;
    }
    const auto& steps = m_flow.clip()->steps();
    const auto at = std::ranges::find(steps, step, &Step::number);
    const auto& known = m_seen->of(*m_flow.clip());
    if (known.found.empty() || known.isTaught || at == steps.end() ||
        !isConfirmedWhole(m_flow, *at)) {
        return;
    }
    m_panel.tell(tr("Learning from the step you confirmed: the proposals of the others get "
                    "better in some seconds."),
                 "");
    ++m_piece;
    m_proposed = m_flow.clip();
    m_isQuiet = false;
    m_taughtBy = step;
    m_isOtherRunner = false;
    m_later.clear();
    look({});
}

void Proposing::stop()
{
    m_later.clear();
    m_work->endEarly();
}

void Proposing::take(const std::shared_ptr<const ProposeResult>& result)
{
    if (!m_proposed ||
        !m_seen->isCurrent(
            *m_proposed)) { // The clip was taken away meanwhile, or is being opened again.
        m_later.clear();
        m_panel.work().endWork(workId);
        return;
    }
    if (!result->searched.boxWanted.empty()) {
        m_panel.work().endWork(workId);
        tellBox(fromUtf8(result->searched.boxWanted));
        return;
    }
    auto& known = m_seen->of(*m_proposed);
    known.found = result->searched.found;
    known.path = result->searched.path;
    m_seen->keep(*m_proposed);
    const bool isShown = m_proposed == m_flow.clip();
    if (!result->fault.empty()) {
        m_later.clear();
        m_panel.work().endWork(workId);
        if (isShown) {
            m_panel.tell(fromUtf8(result->fault), result->isStopped ? "" : "bad");
        }
        return;
    }
    if (isShown && std::exchange(m_taughtBy, {}) && !isAnyConfirmedWhole(m_flow)) {
        m_panel.work().endWork(workId); // taken back: it was confirmed by mistake
        m_panel.tell({}, "");
        return;
    }
    auto proposed = marksOf(result->proposals);
    if (!m_isOtherRunner && (result->isStopped || !m_later.empty())) {
        leaveStanding(proposed, m_proposed->marking());
    }
    auto command = std::make_unique<ProposeMarks>(*m_proposed, proposed, m_piece);
    if (command->isWork()) {
        m_proposed->history().push(command.release());
    }
    if (!m_later.empty()) {
        look(std::exchange(m_later, {}));
        return;
    }
    m_panel.work().endWork(workId);
    if (!isShown || m_isQuiet) {
        return;
    }
    tellProposed(*result);
    if (!result->isStopped) {
        known.isTaught = isAnyConfirmedWhole(m_flow);
        fillCells(); // contacts may have been found meanwhile
    }
}

void Proposing::tellProposed(const ProposeResult& result)
{
    const ClipDocument& clip = *m_flow.clip();
    const QStringList details = proposalRemarks(result);
    QString told = proposeSummary(result);
    if (result.isStopped) {
        told += u' ' + tr("Stopped: %1 goes on from here.").arg(m_keys.textOf("marks.propose"));
    } else if (clip.marking().stances.empty()) {
        told += u' ' + tr("%1 finds the contacts.").arg(m_keys.textOf("marks.find_contacts"));
    } else {
        told += u' ' + tr("%1 goes to the least sure cell.").arg(m_keys.textOf("marks.next_cell"));
    }
    m_panel.tell(told, result.remarks.empty() ? "" : "doubt", details);
}

void Proposing::exchangeLegs()
{
    if (!isUsable() || !m_flow.shown()) {
        return;
    }
    ClipDocument& clip = *m_flow.clip();
    const auto turns = m_seen->of(clip).turns;
    const FrameNumber from = *m_flow.shown();
    const auto to = endOfExchange(clip.marking(), *turns, from);
    auto command = std::make_unique<ExchangeLegs>(clip, turns, from, to);
    if (!command->isWork()) {
        m_panel.tell(tr("There is no proposed or followed mark of the legs from this frame on: "
                        "near and far leg of your own marks are exchanged by dragging them."),
                     "doubt");
        return;
    }
    clip.history().push(command.release());
    emit legsExchanged();
    m_panel.tell(exchangedText(clip, from, to), "");
}

void Proposing::tellRowRefused(const MarkKey& key, double sePx, double boundPx)
{
    m_panel.tell(rowRefusedText(key, sePx, boundPx, m_keys), "doubt");
}

} // namespace latemile::ui
