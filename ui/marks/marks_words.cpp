// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/marks_words.hpp"

#include "ui/document/clip_document.hpp"
#include "ui/document/place_name.hpp"
#include "ui/keys/keys.hpp"
#include "ui/marks/follow_words.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/marks/running_line.hpp"
#include "ui/marks/step_model.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"

#include <QCoreApplication>
#include <QStringList>

namespace latemile::ui {
namespace {

QString translated(const char* text)
{
    return QCoreApplication::translate("MarksWords", text);
}

bool isProposedEvent(const MarkingFlow& flow, const StepInstant& place)
{
    if (flow.clip() == nullptr || flow.asksOnly() || !flow.frameOf(place)) {
        return false;
    }
    const auto& stances = flow.clip()->marking().stances;
    const auto at = static_cast<std::size_t>(place.step.value - 1);
    return (place.instant == Instant::Contact || place.instant == Instant::ToeOff) &&
           at < stances.size() && stances[at].origin != Origin::Placed;
}

QString proposedEventHint(const MarkingFlow& flow, const StepInstant& place, const Keys& keys)
{
    const auto at = static_cast<std::size_t>(place.step.value - 1);
    const bool isLeft = flow.clip()->marking().stances[at].foot == Foot::Left;
    const bool isContact = place.instant == Instant::Contact;
    const char* key = isContact ? (isLeft ? "marks.left_contact" : "marks.right_contact")
                                : (isLeft ? "marks.left_toe_off" : "marks.right_toe_off");
    const QString ask =
        isContact ? translated(QT_TRANSLATE_NOOP(
                        "MarksWords", "Step %1: is this the first frame with the %2 foot on the "
                                      "ground? %3 says yes and goes on; else step there and press "
                                      "%4."))
                  : translated(QT_TRANSLATE_NOOP(
                        "MarksWords", "Step %1: is this the first frame with the %2 foot clear of "
                                      "the ground? %3 says yes and goes on; else step there and "
                                      "press %4."));
    return ask.arg(place.step.value)
        .arg(wordFor(isLeft ? Foot::Left : Foot::Right), keys.textOf("marks.accept_contact"),
             keys.textOf(key));
}

QString placeHint(const MarkingFlow& flow, const StepInstant& place, const Keys& keys)
{
    if (isProposedEvent(flow, place)) {
        return proposedEventHint(flow, place, keys);
    }
    const auto pending = flow.pending();
    if (pending) {
        return translated(QT_TRANSLATE_NOOP(
                              "MarksWords",
                              "Step %1 %2: click the %3, or move the crosshair with the arrow keys "
                              "and press %4. %5 takes all from the step before, to be dragged."))
            .arg(place.step.value)
            .arg(wordFor(place.instant), wordFor(*pending), keys.textOf("marks.accept"),
                 keys.textOf("marks.copy"));
    }
    const QString state = translated(QT_TRANSLATE_NOOP("MarksWords", "Step %1 %2: %3."))
                              .arg(place.step.value)
                              .arg(wordFor(place.instant), stateText(flow, place));
    if (flow.work(place).state != CellState::Proposed) {
        return state;
    }
    return state + u' ' +
           translated(
               QT_TRANSLATE_NOOP("MarksWords",
                                 "Drag what is off; %1 accepts the cell, %2 the whole step."))
               .arg(keys.textOf("marks.accept"), keys.textOf("marks.accept_step"));
}

QString feetHint(const MarkingFlow& flow, const Keys& keys)
{
    const auto key = flow.pendingKey();
    if (!key) {
        return {};
    }
    const bool isProposed = flow.clip()->marking().find(*key) != nullptr;
    const QString ask =
        isProposed
            ? translated(
                  QT_TRANSLATE_NOOP("MarksWords",
                                    "The %1 is proposed: %2 accepts it, a click or the arrow "
                                    "keys set it right;"))
                  .arg(wordFor(*key), keys.textOf("marks.accept"))
            : translated(QT_TRANSLATE_NOOP("MarksWords", "Click the %1;")).arg(wordFor(*key));
    return ask + u' ' +
           translated(QT_TRANSLATE_NOOP("MarksWords", "%1 says it is not visible, %2 stops."))
               .arg(keys.textOf("marks.not_visible"), keys.textOf("marks.let_go"));
}

QString eventHint(const MarkingFlow& flow, const Keys& keys)
{
    if (flow.clip() == nullptr) {
        return {};
    }
    if (flow.clip()->steps().empty()) {
        return translated(QT_TRANSLATE_NOOP(
                              "MarksWords",
                              "Drag along the ruler to the first frame with a foot on the ground "
                              "and press the key of that foot's contact (%1 or %2), or let %3 "
                              "propose all landmarks."))
            .arg(keys.textOf("marks.left_contact"), keys.textOf("marks.right_contact"),
                 keys.textOf("marks.propose"));
    }
    return translated(QT_TRANSLATE_NOOP("MarksWords",
                                        "%1 goes to the next cell that wants work. The %2 is due "
                                        "next: %3 goes there, %4 sets it and goes on."))
        .arg(keys.textOf("marks.next_cell"), dueText(flow), keys.textOf("marks.go_to_due"),
             keys.textOf("marks.event_due"));
}

QStringList faultsAt(const MarkingFlow& flow, FrameNumber frame)
{
    QStringList told;
    for (const OddBone& bone : flow.oddBonesOn(frame)) {
        told.append(fromUtf8(bone.sentence));
    }
    const ClipDocument* clip = flow.clip();
    for (const RhythmFault& fault : flow.rhythmFaults()) {
        if (clip->isOpen() && clip->index().firstAtOrAfter(fault.at) == frame) {
            told.append(fromUtf8(fault.sentence));
        }
    }
    return told;
}

QString firstFault(const MarkingFlow& flow)
{
    if (!flow.rhythmFaults().empty()) {
        return fromUtf8(flow.rhythmFaults().front().sentence);
    }
    const OddBone& bone = flow.oddBones().front();
    return capital(placeName(*flow.clip(), bone.frame)) + QStringLiteral(": ") +
           fromUtf8(bone.sentence);
}

} // namespace

QString oddBoneWord(const OddBone& bone)
{
    const QString name = bone.upper == Landmark::Hip
                             ? translated(QT_TRANSLATE_NOOP("MarksWords", "thigh"))
                             : translated(QT_TRANSLATE_NOOP("MarksWords", "shank"));
    return QStringLiteral("%1 %2%3 %")
        .arg(name, bone.percent > 0 ? QStringLiteral("+") : QString(), numberText(bone.percent, 0));
}

QString dueText(const MarkingFlow& flow)
{
    const auto due =
        flow.clip() == nullptr ? std::nullopt : nextExpected(flow.clip()->marking().stances);
    return due ? QStringLiteral("%1 %2").arg(
                     wordFor(due->foot),
                     wordFor(due->isToeOff ? Instant::ToeOff : Instant::Contact))
               : QString();
}

QString hintText(const MarkingFlow& flow, const Keys& keys)
{
    if (const auto& chosen = flow.chosen()) {
        return translated(QT_TRANSLATE_NOOP("MarksWords",
                                            "%1: drag it or nudge with the arrow keys (Shift: a "
                                            "tenth); %2 takes it away, %3 lets go."))
            .arg(capital(wordFor(*chosen)), keys.textOf("marks.remove"),
                 keys.textOf("marks.let_go"));
    }
    if (flow.isAskingFeet()) {
        return feetHint(flow, keys);
    }
    return flow.place() ? placeHint(flow, *flow.place(), keys) : eventHint(flow, keys);
}

QString warningText(const MarkingFlow& flow, FrameNumber frame, const Keys& keys)
{
    if (flow.clip() == nullptr) {
        return {};
    }
    const QStringList here = faultsAt(flow, frame);
    if (!here.isEmpty()) {
        return here.join(u' ');
    }
    const auto places = flow.rhythmFaults().size() + flow.oddBones().size();
    if (places == 0) {
        return markingWarning(*flow.clip());
    }
    return translated(QT_TRANSLATE_NOOP("MarksWords", "%1 (%2 to look at; %3 goes there.)"))
        .arg(firstFault(flow))
        .arg(places)
        .arg(keys.textOf("marks.check"));
}

} // namespace latemile::ui
