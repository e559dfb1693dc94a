// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/scene/plane.hpp"
#include "core/scene/scale_lines.hpp"
#include "tests/catch.hpp"
#include "tests/ui/filming/filming_fixture.hpp"
#include "ui/filming/check_list.hpp"
#include "ui/filming/common_lengths.hpp"
#include "ui/filming/scene_tool.hpp"

#include <QPushButton>

using namespace latemile;
using namespace latemile::ui;

namespace {

/// A pointer stands on whole screen pixels, of which each is up to 2 of the picture here.
constexpr double screenPixel = 2.0;

const Remark* remarkAbout(const FilmingPage& page, std::string_view about)
{
    for (const Remark& remark : page.checks().remarks()) {
        if (remark.about == about) {
            return &remark;
        }
    }
    return nullptr;
}

} // namespace

TEST_CASE("scale lines drawn on the picture stand where they were drawn, each a step back", "[ui]")
{
    FilmingCoach coach;
    coach.openFirstVisit();
    const Scene before = coach.clip().scene();
    coach.show(FilmingPage::SceneLines);
    coach.press(QStringLiteral("Draw scale line"));
    coach.drag({300, 200}, {900, 210});
    REQUIRE(scaleLinesOf(coach.clip().scene()).size() == 2);
    const ScaleLine drawn = coach.clip().scene().moreScales.front();
    CHECK(drawn.a.u == Approx(300).margin(screenPixel));
    CHECK(drawn.b.u == Approx(900).margin(screenPixel));
    CHECK(drawn.b.v == Approx(210).margin(screenPixel));
    coach.type(QStringLiteral("Length of scale line 2"), 185.0);
    CHECK(coach.clip().scene().moreScales.front().lengthCm == 185.0);
    // Two lines: their mean lies between them, nearer to the surer.
    const auto mean = meanScaleOf(coach.clip().scene());
    CHECK(Plane::from(coach.clip().scene())->cmPerPixel({640, 360}) == Approx(mean->cmPerPixel));
    coach.press(QStringLiteral("Remove scale line 2"));
    CHECK(coach.clip().scene() == before);
    coach.window().undo();
    coach.window().undo();
    coach.window().undo();
    CHECK(coach.clip().scene() == before);
}

TEST_CASE("a line is drawn and set by keys alone", "[ui]")
{
    FilmingCoach coach;
    FilmingPage& page = coach.openFirstVisit();
    coach.key(Qt::Key_S);
    coach.key(Qt::Key_Return);
    REQUIRE(scaleLinesOf(coach.clip().scene()).size() == 2);
    REQUIRE(page.tool().chosen());
    const PixelPoint before = placeOf(coach.clip().scene(), *page.tool().chosen());
    coach.key(Qt::Key_Right);
    coach.key(Qt::Key_Right, Qt::ControlModifier);
    coach.key(Qt::Key_Up, Qt::ShiftModifier);
    const PixelPoint after = placeOf(coach.clip().scene(), *page.tool().chosen());
    CHECK(after.u == Approx(before.u + 11));
    CHECK(after.v == Approx(before.v - 0.1));
    coach.window().undo();
    CHECK(placeOf(coach.clip().scene(), *page.tool().chosen()) == before);
    const auto first = page.tool().chosen();
    coach.key(Qt::Key_E);
    CHECK(page.tool().chosen() != first);
    coach.key(Qt::Key_Escape);
    CHECK_FALSE(page.tool().chosen());
}

TEST_CASE("without a scale angles and times remain, and the page says so", "[ui]")
{
    FilmingCoach coach;
    FilmingPage& page = coach.openFirstVisit();
    coach.show(FilmingPage::SceneLines);
    coach.press(QStringLiteral("No scale"));
    CHECK_FALSE(coach.clip().scene().scale);
    CHECK(textsOf(page).contains(QStringLiteral("angles and times only")));
    coach.settle();
    REQUIRE(remarkAbout(page, "scale") != nullptr);
    CHECK(remarkAbout(page, "scale")->state == Check::State::Doubt);
}

TEST_CASE("four corners give the plane, with their sides typed", "[ui][outside]")
{
    FilmingCoach coach;
    coach.openFirstVisit();
    coach.show(FilmingPage::SceneLines);
    coach.press(QStringLiteral("Draw corners"));
    coach.drag({400, 200}, {900, 600});
    REQUIRE(coach.clip().scene().plane);
    coach.type(QStringLiteral("Width between the corners"), 250.0);
    coach.type(QStringLiteral("Height between the corners"), 200.0);
    // By hand: a rectangle of 500 x 400 px that is 250 x 200 cm has pixels of 0.5 cm.
    const auto plane = Plane::from(coach.clip().scene());
    REQUIRE(plane);
    CHECK(plane->scaleFrom() == ScaleFrom::Corners);
    CHECK(plane->cmPerPixel({640, 400}) == Approx(0.5).margin(0.004));
    coach.press(QStringLiteral("Remove corners"));
    CHECK_FALSE(coach.clip().scene().plane);
}

TEST_CASE("a mirrored clip is told where its side is chosen", "[ui]")
{
    FilmingCoach coach;
    FilmingPage& page = coach.openFirstVisit();
    coach.show(FilmingPage::SceneLines);
    coach.choose(QStringLiteral("Runs in the picture"), QStringLiteral("To the right"));
    CHECK(textsOf(page).contains(QStringLiteral("mirrored")));
    coach.choose(QStringLiteral("Camera"), QStringLiteral("Right side"));
    CHECK_FALSE(textsOf(page).contains(QStringLiteral("mirrored")));
}

TEST_CASE("common lengths can be added, changed and forgotten", "[ui]")
{
    FilmingCoach coach;
    CHECK(commonLengths().size() == 3);
    CHECK(commonLengths()[0].cm == 100.0);
    keepCommonLength({QStringLiteral("my belt"), 142.0});
    keepCommonLength({QStringLiteral("belt side"), 0.0});
    const auto lengths = commonLengths();
    REQUIRE(lengths.size() == 3);
    CHECK(lengths.back() == CommonLength{QStringLiteral("my belt"), 142.0});
}

TEST_CASE("the check list of the sample says what more frames would give", "[ui]")
{
    FilmingCoach coach;
    FilmingPage& page = coach.openFirstVisit();
    coach.show(FilmingPage::Trust);
    // Filmed at 120/s: T sqrt(2/3) is 6.8 ms, at 240/s 3.4 ms.
    CHECK(textsOf(page).contains(QStringLiteral("Frames are 8.3 ms apart: one contact time ± 7 "
                                                "ms; film at 240 frames/s for ± 3 ms.")));
    REQUIRE(remarkAbout(page, "belt") != nullptr);
    CHECK(remarkAbout(page, "belt")->state == Check::State::Good);
}

TEST_CASE("a scale line that contradicts the belt is put right by one press, and back by undo",
          "[ui]")
{
    FilmingCoach coach;
    FilmingPage& page = coach.openFirstVisit();
    coach.show(FilmingPage::SceneLines);
    const double right = coach.clip().scene().scale->lengthCm;
    coach.type(QStringLiteral("Length of scale line 1"), 1.25 * right);
    coach.settle();
    coach.show(FilmingPage::Trust);
    REQUIRE(remarkAbout(page, "belt") != nullptr);
    CHECK(remarkAbout(page, "belt")->state == Check::State::Bad);
    const auto offers = page.checks().findChildren<QPushButton*>();
    REQUIRE(offers.size() == 1);
    CHECK(offers.front()->text().startsWith(QStringLiteral("Make the scale line ")));
    coach.press(offers.front()->text());
    // The belt's own 1.5 % and the marks'.
    CHECK(coach.clip().scene().scale->lengthCm == Approx(right).epsilon(0.03));
    coach.settle();
    CHECK(remarkAbout(page, "belt")->state == Check::State::Good);
    coach.window().undo();
    CHECK(coach.clip().scene().scale->lengthCm == Approx(1.25 * right));
}

TEST_CASE("without a scale line the belt's scale is taken by one press", "[ui]")
{
    FilmingCoach coach;
    FilmingPage& page = coach.openFirstVisit();
    coach.show(FilmingPage::SceneLines);
    coach.press(QStringLiteral("No scale"));
    coach.settle();
    coach.show(FilmingPage::Trust);
    coach.press(QStringLiteral("Take the scale from the belt"));
    CHECK(coach.clip().scene().scaleByBelt);
    coach.settle();
    REQUIRE(coach.clip().readings());
    CHECK(coach.clip().readings()->clip.scaleFrom == ScaleFrom::Belt);
    CHECK(textsOf(page).contains(QStringLiteral("The belt is the ruler")));
}
