// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/filming/next_visit.hpp"
#include "tests/catch.hpp"
#include "tests/ui/filming/filming_fixture.hpp"
#include "ui/filming/check_list.hpp"
#include "ui/filming/last_visit_ghost.hpp"
#include "ui/filming/scene_loan.hpp"
#include "ui/filming/scene_tool.hpp"

#include <cmath>
#include <map>

using namespace latemile;
using namespace latemile::ui;

namespace {

std::map<std::string, Check::State> statesOf(const FilmingPage& page)
{
    std::map<std::string, Check::State> states;
    for (const Remark& remark : page.checks().remarks()) {
        states[remark.about] = remark.state;
    }
    return states;
}

/// What a coach does on the first day, to the last field.
int actsOfFirstVisit()
{
    FilmingCoach coach;
    FilmingPage& page = coach.openFirstDay();
    coach.drop({sampleClip("2026-08-29", "fresh.mp4")}, 1);
    coach.show(FilmingPage::Run);
    coach.type(QStringLiteral("Minute into the run"), 6);
    coach.choose(QStringLiteral("Unit of speed"), QStringLiteral("m/s"));
    coach.typeText(QStringLiteral("Belt speed"), QStringLiteral("2.7"));
    coach.type(QStringLiteral("Incline"), 0);
    coach.typeText(QStringLiteral("Shoes"), QStringLiteral("Daily trainers, 8 mm drop"));
    coach.type(QStringLiteral("Exertion"), 3);
    coach.choose(QStringLiteral("Pain"), QStringLiteral("no"));
    coach.show(FilmingPage::SceneLines);
    coach.press(QStringLiteral("Draw scale line"));
    coach.drag({998, 624}, {997, 23});
    coach.type(QStringLiteral("Length of scale line 1"), 200);
    coach.press(QStringLiteral("Draw plumb line"));
    coach.drag({637, 60}, {643, 620});
    coach.settle();
    const auto states = statesOf(page);
    CHECK(states.at("scale") == Check::State::Good);
    CHECK(states.at("upright") == Check::State::Good);
    CHECK(states.at("speed") == Check::State::Good);
    return coach.acts();
}

} // namespace

TEST_CASE("a re-film with an untouched tripod takes four acts instead of fifteen", "[ui]")
{
    const int first = actsOfFirstVisit();
    FilmingCoach coach;
    FilmingPage& page = coach.openNewDay();
    // The truth files give one camera for both clips of that day: here it stood till the next.
    coach.drop({sampleClip("2026-08-29", "late.mp4")}, 1);
    coach.show(FilmingPage::Run);
    coach.type(QStringLiteral("Exertion"), 4);
    coach.choose(QStringLiteral("Pain"), QStringLiteral("no"));
    coach.settle();
    CAPTURE(first, coach.acts());
    CHECK(coach.acts() == 4);
    CHECK(first == 15);

    const auto before = readSession(coach.folder().parent_path() / "2026-08-29");
    REQUIRE(before);
    const SessionClip& then = before->clips.front();
    const SessionClip& now = coach.clip().clip();
    CHECK(now.condition == "fresh");
    CHECK(now.minute == then.minute);
    CHECK(now.shoes == then.shoes);
    CHECK(now.inclinePercent == then.inclinePercent);
    CHECK(now.scene.beltSpeed == then.scene.beltSpeed);
    CHECK(now.scene.scale == then.scene.scale);
    CHECK(now.scene.plumb == then.scene.plumb);
    const auto states = statesOf(page);
    CHECK(states.at("scale") == Check::State::Good);
    CHECK(states.at("upright") == Check::State::Good);
    CHECK(states.at("speed") == Check::State::Good);
    coach.show(FilmingPage::SceneLines);
    CHECK(textsOf(page).contains(QStringLiteral("The camera stands as it did")));
    CHECK(textsOf(page).contains(QStringLiteral("Its lines are taken over.")));

    SECTION("the lines come as one step that can be taken back")
    {
        coach.window().undo();
        coach.window().undo();
        coach.window().undo();
        CHECK_FALSE(hasLines(coach.clip().scene()));
    }
    SECTION("the second clip of the day is the late one, with the first one's lines")
    {
        coach.drop({sampleClip("2026-08-29", "fresh.mp4")}, 2);
        CHECK(coach.clip().clip().condition == "fatigued");
        CHECK(coach.clip().clip().minute == before->clips.back().minute);
        CHECK(coach.clip().scene().scale == then.scene.scale);
    }
}

TEST_CASE("a tripod set up anew gets no lines unseen", "[ui]")
{
    FilmingCoach coach;
    FilmingPage& page = coach.openNewDay();
    SECTION("far from where it stood: its own lines must be drawn")
    {
        coach.drop({sampleClip("2026-09-26", "fresh.mp4")}, 1);
        CHECK_FALSE(hasLines(coach.clip().scene()));
        coach.show(FilmingPage::SceneLines);
        CHECK(textsOf(page).contains(QStringLiteral("The camera was moved")));
        CHECK_FALSE(page.loan().canCarry(coach.clip()));
    }
    SECTION("near it: the lines may be carried along, on the coach's word")
    {
        coach.drop({sampleClip("2026-10-24", "fresh.mp4")}, 1);
        CHECK_FALSE(hasLines(coach.clip().scene()));
        coach.show(FilmingPage::SceneLines);
        CHECK(textsOf(page).contains(QStringLiteral("The camera was touched a little")));
        coach.press(QStringLiteral("Carry its lines along"));
        REQUIRE(coach.clip().scene().scale);
        // Truth: the pole of 200 cm is 609.60 px long on that day (601.63 the day before).
        const ScaleLine& line = *coach.clip().scene().scale;
        const double px = std::hypot(line.b.u - line.a.u, line.b.v - line.a.v);
        CHECK(px == Approx(609.6).epsilon(0.006));
    }
    SECTION("another view: nothing to compare with")
    {
        coach.drop({sampleClip("2026-10-24", "rear.mp4")}, 1);
        coach.show(FilmingPage::SceneLines);
        CHECK_FALSE(hasLines(coach.clip().scene()));
        CHECK(textsOf(page).contains(QStringLiteral("no common background")));
    }
}

TEST_CASE("the last visit's first frame lies over this visit's picture", "[ui]")
{
    FilmingCoach coach;
    FilmingPage& page = coach.openNewDay();
    coach.drop({sampleClip("2026-10-24", "fresh.mp4")}, 1);
    CHECK_FALSE(page.tool().hasGhost());
    coach.key(Qt::Key_G);
    REQUIRE(waitUntil([&] { return page.tool().hasGhost(); }));
    CHECK(page.ghost().date() == "2026-08-29");
    CHECK(page.ghost().picture().size() == QSize(1280, 720));
    coach.show(FilmingPage::SceneLines);
    CHECK(textsOf(page).contains(QStringLiteral("The first frame of 2026-08-29")));
    coach.key(Qt::Key_G);
    CHECK_FALSE(page.tool().hasGhost());
}

TEST_CASE("on the first day there is no ghost, and the page says why", "[ui]")
{
    FilmingCoach coach;
    FilmingPage& page = coach.openFirstVisit();
    coach.show(FilmingPage::SceneLines);
    coach.key(Qt::Key_G);
    REQUIRE(waitUntil(
        [&] { return textsOf(page).contains(QStringLiteral("no filming day before this one")); }));
    CHECK_FALSE(page.tool().hasGhost());
}
