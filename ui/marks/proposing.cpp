// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/proposing.hpp"

#include "core/propose/row_bound.hpp"
#include "core/propose/search_frames.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/document/commands/exchange_legs.hpp"
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
#include <utility>

namespace latemile::ui {
namespace {

const auto workId = QStringLiteral("propose");

bool isProposal(const Mark& mark)
{
    return mark.origin == Origin::Proposed && mark.sePx.has_value();
}

bool isFound(const Stance& stance)
{
    return stance.origin == Origin::Proposed;
}

bool isPlaced(const Mark& mark)
{
    return mark.origin == Origin::Placed;
}

bool hasMark(const Marking& marking, bool (*is)(const Mark&))
{
    return std::ranges::any_of(marking.marks, [is](const auto& entry) { return is(entry.second); });
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
    connect(m_work, &ProposeWork::progress, this, &Proposing::tellShare);
    connect(m_work, &ProposeWork::proposed, this, &Proposing::take);
    connect(m_work, &ProposeWork::failed, this, [this](const QString& sentence) {
        end();
        tellOfWork(sentence, m_work->isEndedEarly() ? "" : "bad");
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

/// Of all frames of the clip, those looked at, the ones before this piece of work too.
void Proposing::tellShare(int percent)
{
    if (!m_proposed || !m_seen->isCurrent(*m_proposed)) {
        return;
    }
    const auto all = static_cast<double>(framesToSearch(m_proposed->index()).size());
    const double seen = static_cast<double>(m_seen->of(*m_proposed).found.size()) +
                        0.01 * percent * static_cast<double>(m_looks.frames.size());
    const int share = m_looks.frames.empty() ? percent : static_cast<int>(100.0 * seen / all);
    m_panel.work().setWork(workId, tr("Proposing"), std::min(share, 100));
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
    if (!isUsable()) {
        return;
    }
    if (isBusy()) {
        m_panel.tell(m_proposed == m_flow.clip()
                         ? tr("Landmarks are being proposed: wait for them, or stop that first.")
                         : tr("Landmarks of another clip are being proposed: wait for them, or "
                              "stop that first."),
                     "");
        return;
    }
    if (const auto side = needSideView(m_flow.clip()->scene().view); !side) {
        m_panel.tell(fromUtf8(side.error().sentence), "doubt");
        return;
    }
    if (isAllProposed()) {
        m_panel.tell(m_flow.clip()->marking().stances.empty()
                         ? tr("Every frame has its proposals. %1 finds the contacts.")
                               .arg(m_keys.textOf("marks.find_contacts"))
                         : tr("Every frame has its proposals. Confirm one step first: proposing "
                              "again learns from the marks you placed."),
                     "");
        return;
    }
    leaveBox();
    m_isQuiet = false;
    m_panel.tell({}, "");
    m_teaches = false;
    begin();
}

/// Of a clip at work, where it is the one shown.
void Proposing::tellOfWork(const QString& sentence, const char* state)
{
    if (m_proposed == m_flow.clip()) {
        m_panel.tell(sentence, state);
    }
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
    return !hasMark(marking, isPlaced) && !m_seen->of(*m_flow.clip()).isOtherRunner &&
           proposed == std::ssize(frames);
}

LookedAt Proposing::lookedAt() const
{
    const auto& seen = m_seen->of(*m_proposed);
    LookedAt known{.frames = {},
                   .cells = {},
                   .start = seen.box ? seen.box->frame : FrameNumber{0},
                   .findsContacts = m_findsContacts};
    for (const FoundBody& body : seen.found) {
        known.frames.insert(body.frame);
    }
    if (m_proposed == m_flow.clip() && !seen.isOtherRunner) { // else of the other one's steps
        known.cells = cellFrames();
    }
    return known;
}

void Proposing::begin()
{
    ++m_piece;
    m_proposed = m_flow.clip();
    m_put.clear();
    const auto& stances = m_proposed->marking().stances;
    m_findsContacts = !m_isQuiet && std::ranges::all_of(stances, isFound);
    if (!stances.empty() && nextLooks(m_proposed->index(), lookedAt()).frames.empty()) {
        m_findsContacts = false; // they were found from all there is to see
    }
    goOn();
}

void Proposing::goOn()
{
    look(nextLooks(m_proposed->index(), lookedAt()));
}

void Proposing::look(NextLooks looks)
{
    m_looks = std::move(looks);
    m_findsAfter = m_findsContacts && (m_looks.areForContacts() || m_looks.isLast);
    work(m_looks.frames);
}

/// `frames`: those of the looks at hand, or none, to propose anew from what was seen.
void Proposing::work(std::vector<FrameNumber> frames)
{
    ClipDocument& clip = *m_proposed;
    const auto& known = m_seen->of(clip);
    m_turns = *known.turns;
    m_knowsStep = &clip == m_flow.clip() && isAnyConfirmedWhole(m_flow);
    m_networks = m_networks ? m_networks : std::make_shared<PoseNetworks>(m_resources);
    m_work->propose({.search = {.clip = clip.file(),
                                .options = clip.clipOptions(),
                                .resources = m_resources,
                                .frames = std::move(frames),
                                .box = known.box,
                                .path = known.path,
                                .networks = m_networks},
                     .known = known.found,
                     .view = clip.scene().view,
                     .width = clip.feed().facts().width,
                     .height = clip.feed().facts().height,
                     .turns = m_turns,
                     .marks = clip.marking().marks,
                     .clicks = clip.clicks(),
                     .follows = m_looks.isLast && !m_findsAfter});
}

void Proposing::contactsSettled(bool taken)
{
    if (!std::exchange(m_waits, false)) {
        if (taken) {
            fillCells();
        }
    } else if (!m_proposed || !m_seen->isCurrent(*m_proposed)) {
        end();
    } else if (areLegsExchangedSince()) {
        work({}); // and contacts are found again
    } else {
        goOn();
    }
}

void Proposing::contactsStopped()
{
    if (m_waits) {
        stop();
    }
}

/// The coach exchanged near and far leg while the work at hand took them as they were.
bool Proposing::areLegsExchangedSince() const
{
    return *m_seen->of(*m_proposed).turns != m_turns;
}

void Proposing::fillCells()
{
    if (!isUsable() || isBusy() || !m_seen->of(*m_flow.clip()).path) {
        return;
    }
    m_proposed = m_flow.clip();
    if (nextLooks(m_proposed->index(), lookedAt()).what == NextLooks::For::Cells) {
        m_isQuiet = true;
        m_teaches = false;
        begin();
    }
}

/// No look is taken for it: a coach who stopped looking is not made to wait for it now.
void Proposing::learnFrom(StepNumber step)
{
    if (!isUsable() || isBusy()) {
        return;
    }
    const auto& steps = m_flow.clip()->steps();
    const auto at = std::ranges::find(steps, step, &Step::number);
    const auto& known = m_seen->of(*m_flow.clip());
    if (known.found.empty() || known.isTaught || at == steps.end() ||
        !isConfirmedWhole(m_flow, *at)) {
        return;
    }
    teach();
}

void Proposing::teach()
{
    m_panel.tell(tr("Learning from the step you confirmed: the proposals of the others get "
                    "better in some seconds."),
                 "");
    ++m_piece;
    m_put.clear();
    m_proposed = m_flow.clip();
    m_isQuiet = false;
    m_teaches = true;
    m_findsContacts = false;
    look({.what = NextLooks::For::Rest, .frames = {}, .isLast = true});
}

void Proposing::stop()
{
    if (std::exchange(m_waits, false)) {
        end();
        tellOfWork(stoppedText(), "");
    } else {
        m_work->endEarly();
    }
}

/// No more work.
void Proposing::end()
{
    m_networks.reset();
    m_panel.work().endWork(workId);
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

void Proposing::tellEventsRefused(Seconds se, Seconds bound)
{
    m_panel.tell(eventsRefusedText(se, bound, m_keys), "doubt");
}

void Proposing::tellRowRefused(const MarkKey& key, double sePx, double boundPx)
{
    m_panel.tell(rowRefusedText(key, sePx, boundPx, m_keys), "doubt");
}

} // namespace latemile::ui
