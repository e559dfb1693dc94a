// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/coaches.hpp"
#include "tests/catch.hpp"
#include "tests/ui/window/marking_hands.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"
#include "ui/practice/repeat_page.hpp"
#include "ui/practice/repeat_view.hpp"
#include "ui/window/side_pages.hpp"

#include <QTableWidget>

#include <algorithm>

using namespace latemile;
using namespace latemile::ui;

namespace {

/// The page of a repeat on the first clip, its copy open.
RepeatPage& openRepeat(MainWindow& window)
{
    REQUIRE(waitUntil([&] { return window.session()->clips().front()->isOpen(); }));
    window.showRepeat();
    RepeatPage& repeat = *window.sidePages().repeat();
    REQUIRE(repeat.marks() != nullptr);
    REQUIRE(waitUntil([&] { return !repeat.marks()->flow().open().empty(); }));
    return repeat;
}

/// Places every landmark asked for where the truth has it.
void markAll(MarksPage& page, const nlohmann::json& truth)
{
    for (int placed = 0; placed < 200 && !page.flow().open().empty(); ++placed) {
        if (!page.flow().pending()) {
            press(page.view(), Qt::Key_N);
        }
        waitForPicture(page);
        const auto landmark = page.flow().pending();
        REQUIRE(landmark);
        placeByKeys(page,
                    nearPoint(truth, page.player().frame().value, std::string(nameOf(*landmark))));
    }
}

} // namespace

TEST_CASE("a blind repeat hides the first marks, asks in random order and changes nothing", "[ui]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    const Session before = window.session()->session();
    RepeatPage& repeat = openRepeat(window);
    const auto open = repeat.marks()->flow().open();
    CHECK(open.size() == repeat.plan().size());
    CHECK(open.size() == 12);
    const auto inOrder = [](const StepInstant& a, const StepInstant& b) {
        return std::pair(a.step, a.instant) < std::pair(b.step, b.instant);
    };
    CHECK_FALSE(std::ranges::is_sorted(open, inOrder));
    CHECK(repeat.marks()->flow().clip()->marking().marks.empty());
    emit repeat.left();
    CHECK(window.pageId() == QStringLiteral("marks"));
    CHECK(window.session()->session() == before);
}

TEST_CASE("what a repeat finds stands in the readings once the coach keeps it", "[ui]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("readings"));
    ClipDocument& clip = *window.session()->clips().front();
    REQUIRE(waitUntil([&] { return clip.readings().has_value() && !clip.isReading(); }));
    const auto shareOfMarks = [&] {
        const auto& readings = clip.readings()->readings;
        const auto found = std::ranges::find_if(readings, [](const Reading& reading) {
            return reading.measure == "hips_behind" && reading.value;
        });
        REQUIRE(found != readings.end());
        return found->shares.marks;
    };
    const double byDefault = shareOfMarks();
    RepeatPage& repeat = openRepeat(window);
    markAll(*repeat.marks(), truthOf("fresh"));
    CHECK(repeat.marks()->flow().open().empty());
    repeat.finish();
    INFO(repeat.told().toStdString());
    REQUIRE(repeat.result());
    CHECK(repeat.view().measures().rowCount() > 0);
    // The sample's marks lie by design one pixel off the truth at most in each axis; the second
    // marks are the truth to a tenth of a pixel.
    for (const LandmarkRepeat& landmark : repeat.result()->landmarks) {
        INFO(nameOf(landmark.landmark));
        CHECK(landmark.across.sdAboutZero > 0.05);
        CHECK(landmark.across.sdAboutZero < 3.5);
    }
    repeat.keep();
    CHECK(repeat.told().contains(QStringLiteral("Kept")));
    const auto coaches = readCoaches(libraryOf(fixture.sessionFolder()));
    REQUIRE(coaches);
    REQUIRE(coaches->size() == 1);
    CHECK(coaches->front().name == window.session()->about().coach);
    REQUIRE(waitUntil([&] { return !clip.isReading() && clip.readings().has_value(); }));
    CHECK(shareOfMarks() < byDefault);
}

TEST_CASE("a clip without a placed instant has nothing to repeat and says so", "[ui]")
{
    WindowFixture fixture;
    fixture.makeUnmarked();
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    REQUIRE(waitUntil([&] { return window.session()->clips().front()->isOpen(); }));
    window.showRepeat();
    RepeatPage& repeat = *window.sidePages().repeat();
    CHECK(repeat.marks() == nullptr);
    CHECK(repeat.told().contains(QStringLiteral("nothing to mark again yet")));
}

TEST_CASE("a session may be closed in the middle of a repeat", "[ui]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    openRepeat(window);
    REQUIRE(window.open(fixture.sessionFolder()));
    CHECK(window.sidePages().repeat() == nullptr);
}
