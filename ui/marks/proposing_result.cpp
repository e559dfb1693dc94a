// SPDX-License-Identifier: GPL-3.0-or-later
// What comes of a piece of proposing: into the document, and on to the next.
#include "ui/document/clip_document.hpp"
#include "ui/document/commands/propose_marks.hpp"
#include "ui/document/commands/propose_stances.hpp"
#include "ui/keys/keys.hpp"
#include "ui/marks/follow_panel.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/marks/propose_words.hpp"
#include "ui/marks/proposing.hpp"
#include "ui/marks/whole_steps.hpp"
#include "ui/text/words.hpp"

#include <QUndoStack>

#include <algorithm>
#include <utility>

namespace latemile::ui {
namespace {

bool isFound(const Stance& stance)
{
    return stance.origin == Origin::Proposed;
}

/// By what the network saw alone gaps are filled only, where a mark is placed: what stands there
/// may be joined with following, but for what this piece of work has `put` there itself.
void leaveStanding(std::map<MarkKey, Mark>& proposed, const Marking& marking,
                   const std::set<MarkKey>& put)
{
    const bool isAnyPlaced = std::ranges::any_of(
        marking.marks, [](const auto& entry) { return entry.second.origin == Origin::Placed; });
    if (!isAnyPlaced) {
        return;
    }
    std::erase_if(proposed, [&](const auto& entry) {
        return marking.find(entry.first) != nullptr && !put.contains(entry.first);
    });
}

} // namespace

void Proposing::take(const std::shared_ptr<const ProposeResult>& result)
{
    if (!m_proposed ||
        !m_seen->isCurrent(
            *m_proposed)) { // The clip was taken away meanwhile, or is being opened again.
        end();
        return;
    }
    if (!result->searched.boxWanted.empty()) {
        end();
        if (m_proposed == m_flow.clip()) {
            tellBox(fromUtf8(result->searched.boxWanted));
        }
        return;
    }
    auto& known = m_seen->of(*m_proposed);
    known.found = result->searched.found;
    known.path = result->searched.path;
    m_seen->keep(*m_proposed);
    const bool isShown = m_proposed == m_flow.clip();
    if (isShown && std::exchange(m_teaches, false) && !isAnyConfirmedWhole(m_flow)) {
        end(); // taken back: it was confirmed by mistake
        m_panel.tell({}, "");
        return;
    }
    if (!result->fault && areLegsExchangedSince()) {
        if (result->isStopped) {
            end();
            tellOfWork(stoppedText(), "");
        } else {
            work({});
        }
        return;
    }
    if (!result->fault) {
        put(*result);
    }
    if (!isGoingOn(*result)) {
        finish(*result);
        return;
    }
    m_findsContacts = m_findsContacts && !m_looks.isLast;
    if (isShown && m_findsAfter && !result->fault) {
        m_waits = true;
        emit contactsWanted(m_looks.what != NextLooks::For::FirstSteps);
    } else {
        goOn();
    }
}

/// Nobody on the frames looked at so far: she may come later. What was not asked for looks at the
/// frames of cells alone.
bool Proposing::isGoingOn(const ProposeResult& result)
{
    const bool mayCome = !result.fault || result.fault->kind == Error::Kind::NotFound;
    if (!mayCome || result.isStopped || (m_looks.isLast && !m_findsAfter)) {
        return false;
    }
    return !m_isQuiet || nextLooks(m_proposed->index(), lookedAt()).what == NextLooks::For::Cells;
}

/// Into the document.
void Proposing::put(const ProposeResult& result)
{
    auto proposed = marksOf(result.proposals);
    const bool isOther = m_seen->of(*m_proposed).isOtherRunner;
    const auto others = isOther ? ProposeMarks::Others::Go : ProposeMarks::Others::Stay;
    if (isOther) {
        clearOtherRunner();
    } else if (result.isStopped || !m_looks.isLast || m_findsAfter) {
        leaveStanding(proposed, m_proposed->marking(), m_put);
    }
    for (const auto& [key, mark] : proposed) {
        m_put.insert(key);
    }
    auto command = std::make_unique<ProposeMarks>(*m_proposed, proposed, m_piece, others);
    if (command->isWork()) {
        m_proposed->history().push(command.release());
    }
}

/// The steps that were found of her; her marks go with the first that are proposed of this one.
void Proposing::clearOtherRunner()
{
    m_seen->of(*m_proposed).isOtherRunner = false;
    if (std::ranges::any_of(m_proposed->marking().stances, isFound)) {
        m_proposed->history().push(new ProposeStances(*m_proposed, {}));
    }
    emit runnerChanged(m_proposed);
}

void Proposing::finish(const ProposeResult& result)
{
    end();
    if (m_proposed != m_flow.clip()) {
        return;
    }
    if (result.fault) {
        m_panel.tell(fromUtf8(result.fault->sentence), result.isStopped ? "" : "bad");
        return;
    }
    auto& known = m_seen->of(*m_proposed);
    if (!result.isStopped && isAnyConfirmedWhole(m_flow) && !m_knowsStep) {
        teach(); // from what was confirmed while the last frames were looked at
        return;
    }
    if (m_isQuiet) {
        return;
    }
    tellProposed(result);
    if (!result.isStopped) {
        known.isTaught = m_knowsStep;
        fillCells(); // contacts may have been found meanwhile
    }
}

QString Proposing::stoppedText() const
{
    return tr("Stopped: %1 goes on from here.").arg(m_keys.textOf("marks.propose"));
}

void Proposing::tellProposed(const ProposeResult& result)
{
    const ClipDocument& clip = *m_flow.clip();
    const QStringList details = proposalRemarks(result);
    QString told = proposeSummary(result);
    if (result.isStopped) {
        told += u' ' + stoppedText();
    } else if (std::ranges::any_of(clip.marking().stances, isFound)) {
        told +=
            u' ' +
            tr("%1 leads through the contacts found.").arg(m_keys.textOf("marks.accept_contact"));
    } else if (clip.marking().stances.empty()) {
        told += u' ' + tr("%1 finds the contacts.").arg(m_keys.textOf("marks.find_contacts"));
    } else {
        told += u' ' + tr("%1 goes to the least sure cell.").arg(m_keys.textOf("marks.next_cell"));
    }
    m_panel.tell(told, result.remarks.empty() ? "" : "doubt", details);
}

} // namespace latemile::ui
