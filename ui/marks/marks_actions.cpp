// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/marks_actions.hpp"

#include "ui/document/clip_document.hpp"
#include "ui/document/commands/remove_stance.hpp"
#include "ui/document/commands/set_contact.hpp"
#include "ui/document/commands/set_toe_off.hpp"
#include "ui/document/selection.hpp"
#include "ui/keys/keys.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/marks/marks_page.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"
#include "ui/picture/transport_bar.hpp"
#include "ui/text/words.hpp"

#include <QLabel>
#include <QToolButton>
#include <QUndoStack>

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
    key("marks.left_contact", [&page] { contact(page, Foot::Left); });
    key("marks.left_toe_off", [&page] { toeOff(page, Foot::Left); });
    key("marks.right_contact", [&page] { contact(page, Foot::Right); });
    key("marks.right_toe_off", [&page] { toeOff(page, Foot::Right); });
    key("marks.remove_step", [&page] { removeStep(page); });
    key("marks.next_cell", [&page] { nextCell(page, 1); });
    key("marks.previous_cell", [&page] { nextCell(page, -1); });
    key("marks.accept", [&page] { accept(page); });
    key("marks.not_visible", [&flow] { flow.sayNotVisible(); });
    key("marks.copy", [&flow] { flow.copyFromStepBefore(); });
    key("marks.next_mark", [&flow] { flow.chooseNext(1); });
    key("marks.previous_mark", [&flow] { flow.chooseNext(-1); });
    key("marks.remove", [&flow] { flow.removeChosen(); });
    key("marks.let_go", [&page, &flow] {
        if (flow.chosen()) {
            flow.choose(std::nullopt);
        } else {
            page.m_context.selection.setPlace(std::nullopt);
        }
    });
}

void MarksActions::contact(MarksPage& page, Foot foot)
{
    ClipDocument* clip = page.flow().clip();
    if (clip == nullptr || !clip->isOpen()) {
        return;
    }
    page.player().pause();
    const FrameNumber frame = page.player().frame();
    if (!SetContact::isPossible(*clip, foot, frame)) {
        page.m_hint->setText(MarksPage::tr("The %1 foot is on the ground already on this frame.")
                                 .arg(wordFor(foot)));
        return;
    }
    clip->history().push(new SetContact(*clip, foot, frame));
}

void MarksActions::toeOff(MarksPage& page, Foot foot)
{
    ClipDocument* clip = page.flow().clip();
    if (clip == nullptr || !clip->isOpen()) {
        return;
    }
    page.player().pause();
    const FrameNumber frame = page.player().frame();
    if (!SetToeOff::isPossible(*clip, foot, frame)) {
        page.m_hint->setText(
            MarksPage::tr("Mark the %1 contact before this frame first.").arg(wordFor(foot)));
        return;
    }
    clip->history().push(new SetToeOff(*clip, foot, frame));
}

void MarksActions::removeStep(MarksPage& page)
{
    ClipDocument* clip = page.flow().clip();
    const auto& place = page.m_context.selection.place();
    if (clip == nullptr || !place) {
        page.m_hint->setText(MarksPage::tr("Choose a step in the table or on the ruler first."));
        return;
    }
    const auto at = static_cast<std::size_t>(place->step.value - 1);
    if (at < clip->marking().stances.size()) {
        clip->history().push(new RemoveStance(*clip, at));
    }
}

void MarksActions::nextCell(MarksPage& page, int way)
{
    if (const auto place = page.flow().nextOpen(way)) {
        page.goTo(*place);
        page.view().setFocus();
    } else {
        page.m_hint->setText(
            page.flow().clip() == nullptr || page.flow().clip()->steps().empty()
                ? MarksPage::tr("Mark the first contact: step to the frame, then press the key of "
                                "the foot.")
                : MarksPage::tr("Every cell is confirmed."));
    }
}

void MarksActions::accept(MarksPage& page)
{
    if (page.flow().chosen()) {
        page.flow().choose(std::nullopt);
    } else if (page.flow().pending()) {
        page.flow().placePending(page.flow().cursor());
    } else {
        page.flow().confirm();
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

void MarksActions::loopStep(MarksPage& page)
{
    Player& player = page.player();
    ClipDocument* clip = page.flow().clip();
    const auto& place = page.m_context.selection.place();
    if (player.isLooping() || clip == nullptr || !place ||
        place->step.value > static_cast<int>(clip->steps().size())) {
        player.setLoop(std::nullopt);
        return;
    }
    const Step& step = clip->steps()[static_cast<std::size_t>(place->step.value - 1)];
    const Seconds end =
        step.nextContact.value_or(step.toeOff.value_or(step.contact + Seconds{0.4}));
    player.setLoop(std::pair{clip->index().nearest(step.contact), clip->index().nearest(end)});
    player.play(1);
}

} // namespace latemile::ui
