// SPDX-License-Identifier: GPL-3.0-or-later
// How little a coach does who takes what is sure with its row. What the pose network saw of the
// clip was kept (tests/core/propose/data), so no look is taken.
#include "core/measures/readings.hpp"
#include "tests/catch.hpp"
#include "tests/project_folders.hpp"
#include "tests/ui/window/counted_hand.hpp"
#include "tests/ui/window/marking_hands.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/marks/contact_finding.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/marks/marks_page.hpp"
#include "ui/marks/proposing.hpp"

#include <algorithm>
#include <iostream>

using namespace latemile;
using namespace latemile::ui;

namespace {

void waitForWork(MarksPage& page)
{
    const auto isDone = [&page] { return !page.proposing().isBusy() && !page.contacts().isBusy(); };
    for (int tries = 0; tries < 8 && !isDone(); ++tries) {
        (void)waitUntil(isDone);
    }
    REQUIRE(isDone());
}

void acceptCells(MarksPage& page, Hand& hand, const nlohmann::json& truth, StepNumber step)
{
    for (const auto instant : {Instant::Contact, Instant::MidStance, Instant::ToeOff}) {
        const StepInstant place{step, instant};
        setRight(page, hand, truth, place);
        for (int tries = 0; tries < 2 && page.flow().work(place).state != CellState::Confirmed;
             ++tries) { // the first may let go of a mark that was dragged
            if (page.flow().place() != place) {
                hand.chooseCell(place);
            }
            hand.key(Qt::Key_Return);
        }
    }
}

} // namespace

TEST_CASE("seven near steps of a raw clip take one and a half actions an instant at most",
          "[ui][hand]")
{
    WindowFixture fixture;
    fixture.makeUnmarked(1);
    std::filesystem::copy_file(tests::sourceFolder() / "tests/core/propose/data/late.looks",
                               fixture.sessionFolder() / "clips/late.mp4.looks");
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    auto& page = dynamic_cast<MarksPage&>(*window.page());
    const auto truth = truthOf("late");
    REQUIRE(waitUntil([&] { return !page.view().pictureSize().isEmpty(); }));
    const ClipDocument& clip = *window.session()->clips().front();
    Hand hand(page);
    hand.key(Qt::Key_U);
    waitForWork(page);
    const auto nearSteps = [&clip] {
        std::vector<StepNumber> numbers;
        for (const Step& step : clip.steps()) {
            if (clip.isNear(step.foot)) {
                numbers.push_back(step.number);
            }
        }
        return numbers;
    };
    REQUIRE(nearSteps().size() == 7);

    acceptCells(page, hand, truth, nearSteps()[1]);
    waitForWork(page); // learns from it
    const int forFirst = hand.actions();
    for (const StepNumber step : nearSteps()) {
        const auto isOpen = [&] {
            return std::ranges::any_of(page.flow().open(), [step](const StepInstant& place) {
                return place.step == step;
            });
        };
        if (!isOpen()) {
            continue;
        }
        hand.chooseCell({step, Instant::Contact});
        for (const auto instant : {Instant::Contact, Instant::MidStance, Instant::ToeOff}) {
            setRight(page, hand, truth, {step, instant});
        }
        hand.key(Qt::Key_Return, Qt::ShiftModifier);
        if (isOpen()) {
            acceptCells(page, hand, truth, step);
        }
        CHECK_FALSE(isOpen());
    }
    const double instants = 3.0 * static_cast<double>(nearSteps().size());
    std::cout << "near rows: " << forFirst << " actions for proposals and the first step, "
              << hand.actions() << " in all, " << hand.actions() / instants << " an instant\n";
    CHECK(hand.actions() <= 1.5 * instants);

    const auto readings = readingsOf(clip.marked()).value();
    for (const std::string id :
         {"foot_ahead", "shank_angle", "knee_flex_contact", "contact_time"}) {
        CAPTURE(id);
        const auto confirmed = std::ranges::count_if(readings.readings, [&](const auto& reading) {
            return reading.measure == id && reading.value && reading.confirmed &&
                   clip.isNear(reading.foot.value_or(Foot::Right));
        });
        CHECK(confirmed == 7);
    }
}
