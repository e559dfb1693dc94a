// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/marks/marking_faults.hpp"

#include "tests/catch.hpp"

using namespace latemile;

namespace {

/// Ten frames at 100 frames/s.
FrameIndex tenFrames()
{
    std::vector<Seconds> times;
    for (int i = 0; i < 10; ++i) {
        times.emplace_back(i * 0.01);
    }
    return FrameIndex(times);
}

std::string wordsOf(const std::optional<MarkingFault>& fault)
{
    return fault ? std::string(fault->field) + ": " + fault->what : "no fault";
}

std::string inClip(std::int64_t frame, double u, double v)
{
    const MarkKey key{{frame}, BodySide::Near, Landmark::Hip};
    return wordsOf(faultOf(key, {{u, v}, Origin::Placed, {}}, tenFrames(), 1280, 720));
}

Stance stance(double contact, std::optional<double> toeOff)
{
    return {Foot::Left, Seconds{contact}, toeOff ? std::optional<Seconds>(*toeOff) : std::nullopt,
            Origin::Placed, std::nullopt};
}

} // namespace

TEST_CASE("a mark belongs to a frame the clip has", "[marking_faults]")
{
    CHECK(inClip(9, 10, 10) == "no fault");
    CHECK(inClip(10, 10, 10) == "frame: the clip has no frame 10, its last is 9");
    CHECK(inClip(-1, 10, 10) == "frame: the clip has no frame -1, its last is 9");
    const Mark mark{{1, 1}, Origin::Placed, -0.5};
    CHECK(wordsOf(faultOf({{0}, BodySide::Near, Landmark::Ear}, mark)) ==
          "se_px: a standard error is never below 0");
}

TEST_CASE("a covered point may be guessed outside the picture but not far outside",
          "[marking_faults]")
{
    CHECK(inClip(0, -640, -360) == "no fault");
    CHECK(inClip(0, 1920, 1080) == "no fault");
    CHECK(inClip(0, 1920.5, 0) == "x_px: the place 1920.5 lies far outside the picture, which is "
                                  "1280 pixels wide");
    CHECK(inClip(0, 0, -361).find("y_px: the place -361 lies far outside") == 0);
}

TEST_CASE("a foot lands before it leaves the ground", "[marking_faults]")
{
    CHECK(wordsOf(faultOf(stance(0.5, 0.7))) == "no fault");
    CHECK(wordsOf(faultOf(stance(0.5, {}))) == "no fault");
    CHECK(wordsOf(faultOf(stance(0.5, 0.25))) ==
          "toe_off_s: the toe-off at 0.25 s is not after the contact at 0.5 s");
    CHECK(wordsOf(faultOf(stance(0.5, 0.5))).find("toe_off_s") == 0);
    CHECK(wordsOf(faultOf(stance(-0.1, 0.5))).find("contact_s") == 0);
}

TEST_CASE("an event lies inside the clip", "[marking_faults]")
{
    CHECK(wordsOf(faultOf(stance(0.0, 0.1), tenFrames())) == "no fault");
    CHECK(wordsOf(faultOf(stance(0.0, 0.125), tenFrames())) ==
          "toe_off_s: the time 0.125 s lies after the end of the clip");
    CHECK(wordsOf(faultOf(stance(0.2, {}), tenFrames())).find("contact_s") == 0);
}

TEST_CASE("a foot does not land while it is on the ground", "[marking_faults]")
{
    CHECK(wordsOf(faultBetween(stance(0.1, 0.2), stance(0.25, 0.3))) == "no fault");
    CHECK(wordsOf(faultBetween(stance(0.1, 0.2), stance(0.15, 0.3))) ==
          "contact_s: the left foot lands at 0.15 s while it is still on the ground from 0.1 s");
    CHECK(wordsOf(faultBetween(stance(0.1, {}), stance(0.1, 0.3))).find("contact_s") == 0);
}
