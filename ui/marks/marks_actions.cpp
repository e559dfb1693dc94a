// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/marks_actions.hpp"

#include "ui/document/clip_document.hpp"
#include "ui/document/selection.hpp"
#include "ui/keys/keys.hpp"
#include "ui/marks/contact_finding.hpp"
#include "ui/marks/event_actions.hpp"
#include "ui/marks/following.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/marks/marks_page.hpp"
#include "ui/marks/proposing.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"
#include "ui/picture/transport_bar.hpp"

#include <QToolButton>

#include <algorithm>

namespace latemile::ui {

MarksActions::MarksActions(MarksPage& page, Keys& keys)
{
    addPictureKeys(page, keys);
    addMarkKeys(page, keys);
}

void MarksActions::addPictureKeys(MarksPage& page, Keys& keys)
{
    Player& player = page.player();
    FrameView& view = page.view();
    const auto key = [&](const char* id, std::function<void()> act) {
        keys.action(id, &page, std::move(act));
    };
    key("picture.play", [&player] { player.isPlaying() ? player.pause() : player.play(1); });
    key("picture.play_back", [&player] { player.isPlaying() ? player.pause() : player.play(-1); });
    key("picture.frame_back", [&player] { player.step(-1); });
    key("picture.frame_on", [&player] { player.step(1); });
    key("picture.step_back", [&page] { moveStep(page, -1); });
    key("picture.step_on", [&page] { moveStep(page, 1); });
    key("picture.instant_back", [&page] { moveInstant(page, -1); });
    key("picture.instant_on", [&page] { moveInstant(page, 1); });
    key("picture.slower",
        [&page] { page.m_transport->setSpeedRow(page.m_transport->speedRow() + 1); });
    key("picture.faster",
        [&page] { page.m_transport->setSpeedRow(page.m_transport->speedRow() - 1); });
    key("picture.loop", [&page] { loopStep(page); });
    key("picture.zoom_in", [&view] { view.zoomBy(1.25); });
    key("picture.zoom_out", [&view] { view.zoomBy(0.8); });
    key("picture.fit", [&view] { view.fit(); });
    QObject::connect(&page.m_transport->loopButton(), &QToolButton::clicked, &page,
                     [&page] { loopStep(page); });
}

void MarksActions::addMarkKeys(MarksPage& page, Keys& keys)
{
    MarkingFlow& flow = page.flow();
    const auto key = [&](const char* id, std::function<void()> act) {
        keys.action(id, &page, std::move(act));
    };
    key("marks.left_contact", [&page] { EventActions::contact(page, Foot::Left); });
    key("marks.left_toe_off", [&page] { EventActions::toeOff(page, Foot::Left); });
    key("marks.right_contact", [&page] { EventActions::contact(page, Foot::Right); });
    key("marks.right_toe_off", [&page] { EventActions::toeOff(page, Foot::Right); });
    key("marks.event_due", [&page] { EventActions::eventDue(page); });
    key("marks.go_to_due", [&page] { EventActions::goToDue(page); });
    key("marks.check", [&page] { EventActions::nextFault(page); });
    key("marks.remove_step", [&page] { EventActions::removeStep(page); });
    key("marks.next_cell", [&page] { nextCell(page, 1); });
    key("marks.previous_cell", [&page] { nextCell(page, -1); });
    key("marks.accept", [&page] { accept(page); });
    key("marks.accept_step", [&page] { acceptStep(page); });
    Following& following = page.following();
    key("marks.feet", [&page, &following] {
        page.player().pause();
        following.markFeet();
        page.view().setFocus();
    });
    Proposing& proposing = page.proposing();
    key("marks.propose", [&proposing] { proposing.propose(); });
    key("marks.runner_box", [&proposing] { proposing.askBox(); });
    key("marks.exchange_legs", [&proposing] { proposing.exchangeLegs(); });
    key("marks.follow", [&following] { following.follow(); });
    ContactFinding& contacts = page.contacts();
    key("marks.find_contacts", [&contacts] { contacts.find(); });
    key("marks.accept_contact", [&contacts] { contacts.acceptEvent(); });
    key("marks.accept_contacts", [&contacts] { contacts.acceptAll(); });
    key("marks.not_visible", [&flow] { flow.sayNotVisible(); });
    key("marks.copy", [&flow] { flow.copyFromStepBefore(); });
    key("marks.next_mark", [&flow] { flow.chooseNext(1); });
    key("marks.previous_mark", [&flow] { flow.chooseNext(-1); });
    key("marks.remove", [&flow] { flow.removeChosen(); });
    key("marks.let_go", [&page, &flow] {
        if (page.proposing().isAskingBox()) {
            page.proposing().leaveBox();
        } else if (flow.chosen()) {
            flow.choose(std::nullopt);
        } else if (flow.isAskingFeet()) {
            flow.letFeetGo();
        } else {
            page.m_context.selection.setPlace(std::nullopt);
        }
    });
}

void MarksActions::nextCell(MarksPage& page, int way)
{
    if (const auto place = page.flow().nextOpen(way)) {
        page.goTo(*place);
        page.view().setFocus();
    } else {
        page.hint(page.flow().clip() == nullptr || page.flow().clip()->steps().empty()
                      ? MarksPage::tr("Mark the first contact: step to the frame, then press the "
                                      "key of the foot.")
                      : MarksPage::tr("Every cell is confirmed."));
    }
}

/// The work goes on by itself: the step's other cells, cell after cell, and behind the last to the
/// next event.
void MarksActions::cellDone(MarksPage& page)
{
    const auto here = page.flow().place();
    if (here) {
        page.proposing().learnFrom(here->step);
    }
    if (const auto same = here ? page.flow().openIn(here->step) : std::nullopt) {
        page.goTo(*same);
        page.view().setFocus();
    } else if (page.flow().nextOpen(1)) {
        nextCell(page, 1);
    } else {
        EventActions::goToDue(page);
    }
}

void MarksActions::accept(MarksPage& page)
{
    if (page.proposing().isAskingBox()) {
        page.m_boxTool.take();
    } else if (page.flow().chosen()) {
        page.flow().choose(std::nullopt);
    } else if (page.flow().pending()) {
        page.flow().placePending(page.flow().cursor());
    } else {
        page.flow().confirm();
    }
}

void MarksActions::acceptStep(MarksPage& page)
{
    if (page.flow().place()) {
        page.flow().confirmStep();
    } else {
        page.hint(MarksPage::tr("Choose a step in the table or on the ruler first."));
    }
}

void MarksActions::moveStep(MarksPage& page, int way)
{
    ClipDocument* clip = page.flow().clip();
    if (clip == nullptr || clip->steps().empty()) {
        return;
    }
    const auto& place = page.m_context.selection.place();
    const int last = static_cast<int>(clip->steps().size());
    const StepInstant next{StepNumber{std::clamp(place ? place->step.value + way : 1, 1, last)},
                           place ? place->instant : Instant::Contact};
    page.goTo(next);
}

void MarksActions::moveInstant(MarksPage& page, int way)
{
    ClipDocument* clip = page.flow().clip();
    if (clip == nullptr || !clip->isOpen()) {
        return;
    }
    // The nearest instant in that direction, of whichever step.
    std::optional<std::pair<FrameNumber, StepInstant>> best;
    for (const Step& step : clip->steps()) {
        for (const auto instant : {Instant::Contact, Instant::MidStance, Instant::ToeOff}) {
            const StepInstant place{step.number, instant};
            const auto frame = page.flow().frameOf(place);
            if (!frame || (*frame <=> page.player().frame()) != (way <=> 0)) {
                continue;
            }
            if (!best || (way > 0 ? *frame < best->first : *frame > best->first)) {
                best = {*frame, place};
            }
        }
    }
    if (best) {
        page.goTo(best->second);
    }
}

/// The step of the cell at hand, else the one the frame shown lies in.
void MarksActions::loopStep(MarksPage& page)
{
    Player& player = page.player();
    ClipDocument* clip = page.flow().clip();
    if (player.isLooping() || clip == nullptr || !clip->isOpen()) {
        player.setLoop(std::nullopt);
        return;
    }
    const auto& place = page.flow().place();
    const Seconds now = clip->index().time(player.frame());
    const Step* step = nullptr;
    for (const Step& one : clip->steps()) {
        if (place ? one.number == place->step : one.contact <= now) {
            step = &one;
        }
    }
    if (step == nullptr) {
        page.hint(MarksPage::tr("There is no step here to loop: mark its contact first."));
        player.setLoop(std::nullopt);
        return;
    }
    const Seconds end =
        step->nextContact.value_or(step->toeOff.value_or(step->contact + Seconds{0.4}));
    player.setLoop(std::pair{clip->index().nearest(step->contact), clip->index().nearest(end)});
    player.play(1);
}

} // namespace latemile::ui
