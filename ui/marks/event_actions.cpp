// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/event_actions.hpp"

#include "core/marks/rhythm.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/document/commands/remove_stance.hpp"
#include "ui/document/commands/set_contact.hpp"
#include "ui/document/commands/set_toe_off.hpp"
#include "ui/document/selection.hpp"
#include "ui/keys/keys.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/marks/marks_page.hpp"
#include "ui/marks/marks_words.hpp"
#include "ui/picture/player.hpp"
#include "ui/text/words.hpp"

#include <QUndoStack>

#include <algorithm>
#include <set>

namespace latemile::ui {
namespace {

std::optional<FrameNumber> frameOfDue(const ClipDocument& clip)
{
    const auto due = nextExpected(clip.marking().stances);
    if (!due || clip.index().size() == 0 || due->at > clip.index().times().back()) {
        return std::nullopt;
    }
    return clip.index().nearest(due->at);
}

/// Frames where something does not fit.
std::set<FrameNumber> faultyFrames(const MarkingFlow& flow)
{
    std::set<FrameNumber> frames;
    for (const OddBone& bone : flow.oddBones()) {
        frames.insert(bone.frame);
    }
    const FrameIndex& index = flow.clip()->index();
    for (const RhythmFault& fault : flow.rhythmFaults()) {
        frames.insert(index.firstAtOrAfter(std::min(fault.at, index.times().back())));
    }
    return frames;
}

bool isUsable(const MarksPage& page)
{
    const ClipDocument* clip = page.flow().clip();
    return clip != nullptr && clip->isOpen() && clip->index().size() > 0;
}

} // namespace

bool EventActions::setContact(MarksPage& page, Foot foot)
{
    ClipDocument& clip = *page.flow().clip();
    const FrameNumber frame = page.player().frame();
    if (!SetContact::isPossible(clip, foot, frame)) {
        page.hint(MarksPage::tr("The %1 foot is on the ground already on this frame.")
                      .arg(wordFor(foot)));
        return false;
    }
    clip.history().push(new SetContact(clip, foot, frame));
    return true;
}

bool EventActions::setToeOff(MarksPage& page, Foot foot)
{
    ClipDocument& clip = *page.flow().clip();
    const FrameNumber frame = page.player().frame();
    if (!SetToeOff::isPossible(clip, foot, frame)) {
        page.hint(MarksPage::tr("Mark the %1 contact before this frame first.").arg(wordFor(foot)));
        return false;
    }
    clip.history().push(new SetToeOff(clip, foot, frame));
    return true;
}

void EventActions::contact(MarksPage& page, Foot foot)
{
    if (isUsable(page)) {
        page.player().pause();
        setContact(page, foot);
    }
}

void EventActions::toeOff(MarksPage& page, Foot foot)
{
    if (isUsable(page)) {
        page.player().pause();
        setToeOff(page, foot);
    }
}

void EventActions::eventDue(MarksPage& page)
{
    if (!isUsable(page)) {
        return;
    }
    page.player().pause();
    const ClipDocument& clip = *page.flow().clip();
    const auto& stances = clip.marking().stances;
    const auto due = nextExpected(stances);
    if (!due) {
        page.hint(MarksPage::tr("Mark the first contact with the key of its foot; then this key "
                                "knows what comes next."));
        return;
    }
    const Seconds last = stances.back().toeOff.value_or(stances.back().contact);
    if (clip.index().eventTime(page.player().frame()) <= last) {
        page.hint(MarksPage::tr("The %1 comes after the last event marked: %2 goes there.")
                      .arg(dueText(page.flow()), page.m_context.keys.textOf("marks.go_to_due")));
        return;
    }
    const bool isSet = due->isToeOff ? setToeOff(page, due->foot) : setContact(page, due->foot);
    if (isSet) {
        goToDue(page);
    }
}

void EventActions::goToDue(MarksPage& page)
{
    if (!isUsable(page)) {
        return;
    }
    page.player().pause();
    if (const auto frame = frameOfDue(*page.flow().clip())) {
        page.player().goTo(*frame);
    } else {
        page.hint(page.flow().clip()->marking().stances.empty()
                      ? MarksPage::tr("Mark the first contact: step to the frame, then press the "
                                      "key of the foot.")
                      : MarksPage::tr("The clip ends before the next event."));
    }
}

void EventActions::removeStep(MarksPage& page)
{
    ClipDocument* clip = page.flow().clip();
    const auto& place = page.flow().place();
    if (clip == nullptr || !place) {
        page.hint(MarksPage::tr("Choose a step in the table or on the ruler first."));
        return;
    }
    const auto at = static_cast<std::size_t>(place->step.value - 1);
    if (at < clip->marking().stances.size()) {
        clip->history().push(new RemoveStance(*clip, at));
    }
}

void EventActions::nextFault(MarksPage& page)
{
    if (!isUsable(page)) {
        return;
    }
    page.player().pause();
    const auto frames = faultyFrames(page.flow());
    if (frames.empty()) {
        page.hint(MarksPage::tr("Nothing stands out: rhythm and bone lengths agree."));
        return;
    }
    const auto next = frames.upper_bound(page.player().frame());
    page.player().goTo(next == frames.end() ? *frames.begin() : *next);
}

} // namespace latemile::ui
