// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/asked_landmarks.hpp"
#include "tests/catch.hpp"
#include "tests/ui/window/counted_hand.hpp"
#include "tests/ui/window/marking_hands.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/marks/follow_panel.hpp"
#include "ui/marks/following.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/marks/marks_page.hpp"
#include "ui/marks/proposing.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"

#include <chrono>
#include <iostream>

using namespace latemile;
using namespace latemile::ui;

namespace {

/// Once all cells are confirmed every measure they were asked for has its numbers.
void checkMeansAreTheCoachs(const ClipDocument& clip, int fewestSteps)
{
    const auto readings = readingsOf(clip.marked()).value();
    for (const std::string& id : defaultMeasures()) {
        CAPTURE(id);
        const bool isOfSteps = static_cast<bool>(findMeasure(id)->formula);
        CHECK(std::ranges::any_of(readings.readings, [&id](const Reading& reading) {
            return reading.measure == id && reading.value && reading.confirmed;
        }));
        CHECK((!isOfSteps || std::ranges::any_of(readings.summary, [&](const Summary& summary) {
            return summary.measure == id && summary.n >= fewestSteps;
        })));
    }
}

/// From an empty clip: contact and toe-off of the first `stances` stances.
void markEvents(Hand& hand, const nlohmann::json& truth, std::size_t stances)
{
    const auto& contacts = truth["contacts"];
    for (std::size_t n = 0; n < stances; ++n) {
        hand.stepTo(contacts[n]["first_frame_of_contact"]);
        hand.key(n == 0 ? Qt::Key_Q : Qt::Key_E); // the sample begins with a left contact
        if (n == 0) {
            hand.key(Qt::Key_D);
        }
        hand.stepTo(contacts[n]["first_frame_after_toe_off"]);
        hand.key(Qt::Key_E);
    }
}

template <class Place>
int markLandmarks(MarksPage& page, Hand& hand, const nlohmann::json& truth, Place place)
{
    int placed = 0;
    hand.key(Qt::Key_N);
    while (const auto landmark = page.flow().pending()) {
        waitForPicture(page);
        place(nearPoint(truth, page.player().frame().value, std::string(nameOf(*landmark))));
        REQUIRE(++placed < 200);
    }
    return placed;
}

/// Both feet on three frames: a foot on the ground, both in the air, the other foot down.
void markSeeds(MarksPage& page, Hand& hand, const nlohmann::json& truth)
{
    for (const std::int64_t frame : {95, 125, 145}) {
        page.player().goTo({frame});
        waitForPicture(page);
        hand.key(Qt::Key_H);
        while (page.flow().isAskingFeet()) {
            const MarkKey key = *page.flow().pendingKey();
            hand.click(truePoint(truth, key));
        }
    }
}

void follow(MarksPage& page, Hand& hand)
{
    hand.key(Qt::Key_F);
    REQUIRE(waitUntil([&page] { return !page.following().isBusy(); }));
}

void findContacts(MarksPage& page, Hand& hand)
{
    hand.key(Qt::Key_G);
    waitForContacts(page);
}

/// A coach who looks at contact and toe-off of every proposal and sets right what is more than a
/// frame off.
void goThroughContacts(MarksPage& page, Hand& hand, const nlohmann::json& truth)
{
    const ClipDocument& clip = *page.flow().clip();
    const auto isOff = [&](Seconds event, std::int64_t first) {
        return std::abs(clip.index().firstAtOrAfter(event).value - first) > 1;
    };
    hand.key(Qt::Key_A);
    for (std::size_t n = 0; n < clip.marking().stances.size(); ++n) {
        waitForPicture(page);
        const Stance found = clip.marking().stances[n];
        for (const auto& contact : truth["contacts"]) {
            const bool isLeft = contact["side"] == "left";
            const Seconds landed{contact["contact_s"].get<double>()};
            if (isLeft != (found.foot == Foot::Left) ||
                std::chrono::abs(found.contact - landed) > Seconds{0.1}) {
                continue;
            }
            if (isOff(found.contact, contact["first_frame_of_contact"])) {
                hand.stepTo(contact["first_frame_of_contact"]);
                hand.key(isLeft ? Qt::Key_Q : Qt::Key_O);
            }
            if (found.toeOff && contact["first_frame_after_toe_off"].is_number()) {
                hand.key(Qt::Key_A); // on to its toe-off
                if (isOff(*found.toeOff, contact["first_frame_after_toe_off"])) {
                    hand.stepTo(contact["first_frame_after_toe_off"]);
                    hand.key(isLeft ? Qt::Key_W : Qt::Key_P);
                }
            }
        }
        hand.key(Qt::Key_A);
        if (n == 1) { // what was set right of both feet is taken off the others
            findContacts(page, hand);
        }
    }
}

} // namespace

TEST_CASE("from an empty clip to six marked steps takes a click a landmark and few keys an event",
          "[ui][hand]")
{
    WindowFixture fixture;
    fixture.makeUnmarked();
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    auto& page = dynamic_cast<MarksPage&>(*window.page());
    const auto truth = truthOf("fresh");
    REQUIRE(waitUntil([&] { return !page.view().pictureSize().isEmpty(); }));
    Hand hand(page);
    constexpr int steps = 6;
    markEvents(hand, truth, steps);
    const ClipDocument& clip = *window.session()->clips().front();
    REQUIRE(clip.steps().size() == steps);
    REQUIRE(clip.steps().back().toeOff);
    CHECK(page.flow().rhythmFaults().empty());
    const int forEvents = hand.actions();
    // Two keys an event beside the frames between where it is due and where it is.
    CHECK(forEvents <= 2 * steps * 4);

    SECTION("with the pointer")
    {
        const int placed = markLandmarks(page, hand, truth, [&](PixelPoint at) { hand.click(at); });
        // Hip, knee and ankle at the near contacts; ear, shoulder and hip at every mid-stance.
        CHECK(placed == 3 * 3 + 6 * 3);
        CHECK(page.flow().open().empty());
        CHECK(hand.actions() - forEvents == placed + 1);
        CHECK(clip.marking().marks.size() == static_cast<std::size_t>(placed));
        std::cout << "six steps: " << forEvents << " actions for " << 2 * steps << " events, "
                  << hand.actions() - forEvents << " for " << placed << " landmarks; "
                  << hand.actions() / (3.0 * steps) << " an instant\n";
    }
    SECTION("by the keyboard alone")
    {
        const int placed =
            markLandmarks(page, hand, truth, [&](PixelPoint at) { hand.placeByKeys(at); });
        CHECK(page.flow().open().empty());
        std::cout << "six steps by keys alone: "
                  << (hand.actions() - forEvents) / static_cast<double>(placed)
                  << " presses a landmark\n";
        CHECK(hand.actions() - forEvents < 40 * placed);
    }
}

TEST_CASE("with followed marks and found contacts a further step takes at most six actions",
          "[ui][hand][follow]")
{
    WindowFixture fixture;
    fixture.makeUnmarked();
    fixture.shorten(408);
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    auto& page = dynamic_cast<MarksPage&>(*window.page());
    const auto truth = truthOf("fresh");
    REQUIRE(waitUntil([&] { return !page.view().pictureSize().isEmpty(); }));
    const ClipDocument& clip = *window.session()->clips().front();
    Hand hand(page);
    markSeeds(page, hand, truth);
    follow(page, hand);
    findContacts(page, hand);
    const int forSeeds = hand.actions();
    REQUIRE(clip.steps().size() >= 8);
    goThroughContacts(page, hand, truth);
    const int forEvents = hand.actions() - forSeeds;

    // The landmarks of a near step and of the far one after it.
    const bool isNearFirst = clip.isNear(clip.steps()[2].foot);
    const int first = isNearFirst ? 3 : 4;
    const int before = hand.actions();
    for (const StepInstant& place : {StepInstant{StepNumber{first}, Instant::Contact},
                                     StepInstant{StepNumber{first}, Instant::MidStance},
                                     StepInstant{StepNumber{first + 1}, Instant::MidStance}}) {
        hand.chooseCell(place);
        while (page.flow().place() == place && page.flow().pendingKey()) {
            hand.click(truePoint(truth, *page.flow().pendingKey()));
        }
    }
    follow(page, hand);
    const int forFirst = hand.actions() - before;
    const auto cells = page.flow().open().size();
    const int begun = hand.actions();
    hand.key(Qt::Key_N);
    for (int row = 0; row < 40 && !page.flow().open().empty(); ++row) {
        REQUIRE(page.flow().place());
        const StepNumber step = page.flow().place()->step;
        waitForPicture(page);
        const StepInstant here = *page.flow().place();
        setRight(page, hand, truth, here);
        for (const auto instant : {Instant::Contact, Instant::MidStance, Instant::ToeOff}) {
            setRight(page, hand, truth, {step, instant});
        }
        hand.key(Qt::Key_Return, Qt::ShiftModifier);
        if (page.flow().place() && page.flow().place()->step == step) {
            hand.key(Qt::Key_Return); // a doubtful cell, looked at by itself
        }
    }
    const auto steps = static_cast<double>(clip.steps().size());
    const double events = forEvents / steps;
    const double marks = (hand.actions() - begun) / (steps - 2);
    std::cout << "followed: " << forSeeds << " actions for the feet, " << forFirst
              << " for the first two steps; then " << events << " a step for contact and toe-off, "
              << marks << " a step for " << static_cast<double>(cells) / (steps - 2) << " cells\n";
    CHECK(page.flow().open().empty());
    CHECK(events + marks <= 6.0);
    checkMeansAreTheCoachs(clip, 3);
}

/// A near cell all of whose landmarks are proposed, so that one key confirms it.
static bool isAnyCellReady(const MarkingFlow& flow)
{
    const ClipDocument& clip = *flow.clip();
    return std::ranges::any_of(flow.open(), [&](const StepInstant& place) {
        const auto& step = clip.steps()[static_cast<std::size_t>(place.step.value - 1)];
        const auto frame = flow.frameOf(place);
        const auto& asked = flow.asked(place);
        return clip.isNear(step.foot) && frame && !asked.empty() &&
               std::ranges::all_of(asked, [&](Landmark landmark) {
                   return clip.marking().find({*frame, BodySide::Near, landmark}) != nullptr;
               });
    });
}

// Hidden: the pose network looks at 672 frames, which takes minutes.
TEST_CASE("from the raw late clip to confirmed near-foot steps by proposals",
          "[.][hand][propose-whole]")
{
    WindowFixture fixture;
    fixture.makeUnmarked(1);
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    auto& page = dynamic_cast<MarksPage&>(*window.page());
    const auto truth = truthOf("late");
    REQUIRE(waitUntil([&] { return !page.view().pictureSize().isEmpty(); }));
    const ClipDocument& clip = *window.session()->clips().front();
    Hand hand(page);
    const auto waitLongFor = [](const auto& condition) {
        for (int tries = 0; tries < 40 && !condition(); ++tries) {
            (void)waitUntil(condition);
        }
        REQUIRE(condition());
    };
    const auto waitForProposals = [&] {
        waitLongFor([&page] { return !page.proposing().isBusy(); });
    };
    const auto began = std::chrono::steady_clock::now();
    const auto secondsSinceBegun = [began] {
        return std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
    };
    hand.key(Qt::Key_U);
    waitLongFor([&clip] { return !clip.marking().stances.empty(); });
    const double firstEvent = secondsSinceBegun();
    waitLongFor([&page] { return isAnyCellReady(page.flow()); });
    const double firstCell = secondsSinceBegun();
    waitLongFor([&clip] { return clip.steps().size() >= 10; });
    const double allEvents = secondsSinceBegun();
    waitForProposals();
    const double proposed = secondsSinceBegun();
    INFO(page.followPanel().told().toStdString());
    const int forProposals = hand.actions();
    REQUIRE(clip.steps().size() >= 10);
    goThroughContacts(page, hand, truth);
    const int forEvents = hand.actions() - forProposals;

    // One near step cell by cell, and what the coach teaches by it.
    const auto near = [&clip](const Step& step) { return clip.isNear(step.foot); };
    const auto nearStep = std::ranges::find_if(clip.steps(), [&](const Step& step) {
        return near(step) && page.flow().place() && step.number == page.flow().place()->step;
    });
    const auto taught = nearStep != clip.steps().end()
                            ? nearStep->number
                            : std::ranges::find_if(clip.steps(), near)->number;
    const int before = hand.actions();
    int drags = 0;
    const auto confirmCells = [&](StepNumber step) {
        for (const auto instant : {Instant::Contact, Instant::MidStance, Instant::ToeOff}) {
            const StepInstant place{step, instant};
            const int so = hand.actions();
            setRight(page, hand, truth, place);
            drags += hand.actions() - so;
            if (page.flow().work(place).state != CellState::Confirmed) {
                if (page.flow().place() != place) {
                    hand.chooseCell(place);
                }
                hand.key(Qt::Key_Return);
                if (page.flow().work(place).state != CellState::Confirmed) {
                    hand.key(Qt::Key_Return); // the first let go of the mark that was dragged
                }
            }
        }
    };
    confirmCells(taught);
    CHECK(page.proposing().isBusy()); // learns from it
    waitForProposals();
    const int forTaught = hand.actions() - before;

    const auto cells = page.flow().open().size();
    const int begun = hand.actions();
    int rows = 0;
    drags = 0;
    hand.key(Qt::Key_N);
    for (; rows < 60 && !page.flow().open().empty() && page.flow().place(); ++rows) {
        waitForPicture(page);
        const StepNumber step = page.flow().place()->step;
        const int so = hand.actions();
        for (const auto instant : {Instant::Contact, Instant::MidStance, Instant::ToeOff}) {
            setRight(page, hand, truth, {step, instant});
        }
        drags += hand.actions() - so;
        hand.key(Qt::Key_Return, Qt::ShiftModifier);
        if (page.flow().place() && page.flow().place()->step == step) {
            confirmCells(step);
            hand.key(Qt::Key_N);
        }
    }
    const auto steps = static_cast<double>(clip.steps().size());
    std::cout << "proposed: " << forProposals << " actions for all proposals, " << forEvents
              << " actions for " << clip.steps().size() << " contacts and toe-offs, " << forTaught
              << " for the first near step, " << hand.actions() - begun << " for " << cells
              << " further cells (" << drags << " of them to set marks right); "
              << hand.actions() / steps << " a step in all\n";
    std::cout << "machine: first event to confirm after " << firstEvent << " s, first near cell "
              << firstCell << " s, events of the whole clip " << allEvents
              << " s, all that is looked at " << proposed << " s\n";
    CHECK(page.flow().open().empty());
    CHECK(hand.actions() / (3 * steps) <= 1.5); // an instant
    checkMeansAreTheCoachs(clip, 6);
}
