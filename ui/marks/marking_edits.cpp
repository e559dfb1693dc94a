// SPDX-License-Identifier: GPL-3.0-or-later
// What the flow does to the marks: each edit is one command of the document's history.
#include "core/propose/row_bound.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/document/commands/confirm_marks.hpp"
#include "ui/document/commands/confirm_stances.hpp"
#include "ui/document/commands/copy_marks.hpp"
#include "ui/document/commands/move_mark.hpp"
#include "ui/document/commands/not_visible.hpp"
#include "ui/document/commands/place_mark.hpp"
#include "ui/document/commands/remove_mark.hpp"
#include "ui/marks/marking_flow.hpp"

#include <QUndoStack>

#include <memory>

namespace latemile::ui {
void MarkingFlow::placePending(PixelPoint at)
{
    const auto key = pendingKey();
    if (!key || m_shown != key->frame) {
        return;
    }
    m_clip->history().push(new PlaceMark(*m_clip, *key, at));
    m_chosen.reset();
    ++m_gesture;
    placeCursorNearGuess();
    emit changed();
    tellIfDone();
}

/// A mark that breaks a bone length keeps the coach here: its flag must be seen first.
void MarkingFlow::tellIfDone()
{
    if (m_feet) {
        letFeetGoWhenDone();
        return;
    }
    const auto& here = m_selection.place();
    if (here && frame() && work(*here).state == CellState::Confirmed &&
        oddBonesOn(*frame()).empty()) {
        emit cellDone();
    }
}

void MarkingFlow::nudge(double du, double dv)
{
    if (m_chosen && m_clip) {
        if (const Mark* mark = m_clip->marking().find(*m_chosen)) {
            moveChosen({mark->at.u + du, mark->at.v + dv});
        }
        return;
    }
    m_cursor = {m_cursor.u + du, m_cursor.v + dv};
    m_cursorFromPointer = false;
    emit changed();
}

void MarkingFlow::moveChosen(PixelPoint to)
{
    if (m_chosen && m_clip) {
        m_clip->history().push(new MoveMark(*m_clip, *m_chosen, to, m_gesture));
    }
}

void MarkingFlow::sayNotVisible()
{
    const auto key = pendingKey();
    if (m_chosen) {
        m_clip->history().push(new NotVisible(*m_clip, *m_chosen));
        choose(std::nullopt);
    } else if (key) {
        m_clip->history().push(new NotVisible(*m_clip, *key));
        placeCursorNearGuess();
        tellIfDone();
    }
}

void MarkingFlow::removeChosen()
{
    if (m_chosen && m_clip && m_clip->marking().find(*m_chosen) != nullptr) {
        m_clip->history().push(new RemoveMark(*m_clip, *m_chosen));
        choose(std::nullopt);
    }
}

void MarkingFlow::confirm()
{
    if (const auto at = frame(); at && !areEventsRefused(m_selection.place()->step)) {
        confirmCells({*m_selection.place()}, placeName(*m_clip, *at));
        tellIfDone();
    }
}

/// The events of their step with them.
void MarkingFlow::confirmCells(const std::vector<StepInstant>& places, const QString& name)
{
    std::vector<std::unique_ptr<QUndoCommand>> commands;
    const Step* step = places.empty() ? nullptr : stepOf(places.front().step);
    if (step != nullptr && step->origin != Origin::Placed) {
        const auto at = static_cast<std::size_t>(step->number.value - 1);
        commands.push_back(std::make_unique<ConfirmStance>(*m_clip, at));
    }
    for (const StepInstant& place : places) {
        if (const auto at = frameOf(place)) {
            auto marks = std::make_unique<ConfirmMarks>(*m_clip, *at, asked(place));
            if (marks->isWork()) {
                commands.push_back(std::move(marks));
            }
        }
    }
    if (commands.empty()) {
        return;
    }
    m_clip->history().beginMacro(tr("confirm %1").arg(name));
    for (auto& command : commands) {
        m_clip->history().push(command.release());
    }
    m_clip->history().endMacro();
}

bool MarkingFlow::wantsLook(const StepInstant& place) const
{
    const auto at = frameOf(place);
    return at && (doubt(place).isDoubtful || !oddBonesOn(*at).empty());
}

/// Goes to the step's contact where it and the toe-off were found and are not sure enough to be
/// taken unseen.
bool MarkingFlow::areEventsRefused(StepNumber step)
{
    const auto at = static_cast<std::size_t>(step.value - 1);
    const auto& stances = m_clip->marking().stances;
    if (at >= stances.size() || stances[at].origin == Origin::Placed || !stances[at].se) {
        return false;
    }
    const auto frame = m_clip->index().nearest(stances[at].contact);
    const auto bound = eventBound(m_clip->index().interval(frame));
    const auto se = *stances[at].se;
    if (se <= bound) {
        return false;
    }
    emit stepStaysAt({step, Instant::Contact});
    emit eventsRefused(se, bound);
    return true;
}

/// Goes to the least sure proposal of the row where it is not sure enough.
bool MarkingFlow::isRowRefused(StepNumber step)
{
    const double trunk = trunkPx(m_clip->marking());
    std::optional<std::pair<StepInstant, MarkKey>> worst;
    double most = 1.0; // of what is allowed
    for (const Instant instant : instantsInOrder) {
        const StepInstant place{step, instant};
        for (const Landmark landmark : frameOf(place) ? asked(place) : std::vector<Landmark>{}) {
            const MarkKey key{*frameOf(place), BodySide::Near, landmark};
            const Mark* mark = m_clip->marking().find(key);
            if (mark == nullptr || mark->origin != Origin::Proposed) {
                continue;
            }
            const double share = proposalError(*mark, trunk) /
                                 (trunk * rowBoundInTrunks(landmark, m_clip->clicks()));
            if (share > most) {
                most = share;
                worst = {place, key};
            }
        }
    }
    if (trunk <= 0 || !worst) {
        return false;
    }
    emit stepStaysAt(worst->first);
    emit rowRefused(worst->second, proposalError(*m_clip->marking().find(worst->second), trunk),
                    trunk * rowBoundInTrunks(worst->second.landmark, m_clip->clicks()));
    return true;
}

void MarkingFlow::confirmStep()
{
    const auto here = m_selection.place();
    if (!here || stepOf(here->step) == nullptr || areEventsRefused(here->step) ||
        isRowRefused(here->step)) {
        return;
    }
    std::vector<StepInstant> sure;
    for (const Instant instant : instantsInOrder) {
        const StepInstant place{here->step, instant};
        if (!wantsLook(place)) {
            sure.push_back(place);
        }
    }
    confirmCells(sure, tr("step %1").arg(here->step.value));
    for (const Instant instant : instantsInOrder) {
        const StepInstant place{here->step, instant};
        const bool isAsked = !asked(place).empty();
        if (isAsked &&
            (isOpen(place) || (frameOf(place) && !oddBonesOn(*frameOf(place)).empty()))) {
            emit stepStaysAt(place);
            return;
        }
    }
    emit cellDone();
}

std::optional<StepInstant> MarkingFlow::sameInstantBefore() const
{
    const auto& here = m_selection.place();
    if (!here || !m_clip) {
        return std::nullopt;
    }
    // The same foot first: the figure stands as it did a stride ago.
    for (const int back : {2, 1, 4, 3}) {
        const StepInstant there{StepNumber{here->step.value - back}, here->instant};
        const auto frame = frameOf(there);
        if (frame && work(there).done > 0) {
            return there;
        }
    }
    return std::nullopt;
}

void MarkingFlow::copyFromStepBefore()
{
    const auto there = sameInstantBefore();
    if (!there || !frame()) {
        return;
    }
    auto command = std::make_unique<CopyMarks>(*m_clip, *frameOf(*there), *frame(),
                                               asked(*m_selection.place()));
    if (command->isWork()) {
        m_clip->history().push(command.release());
    }
}

} // namespace latemile::ui
