// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/worker/believable.hpp"
#include "core/clip/worker/opening_message.hpp"
#include "core/clip/worker/sent_picture.hpp"

#include "tests/catch.hpp"

#include <cmath>
#include <cstdint>
#include <limits>

using namespace latemile;

namespace {

OpeningAnswer plainAnswer()
{
    OpeningAnswer answer;
    answer.shape = {.storedWidth = 160, .storedHeight = 120, .pixelAspect = 1, .orientation = {}};
    answer.facts.container = "mov,mp4";
    answer.facts.containerRate = 30;
    answer.facts.captureRate = 30;
    answer.facts.remarks = {"The clip ends after 2 of its 3 frames."};
    answer.index = FrameIndex({Seconds{0}, Seconds{0.04}});
    answer.groupStarts = {0, 0};
    return answer;
}

bool isTaken(const OpeningAnswer& answer)
{
    return openingAnswer(packed(answer).bytes()).has_value();
}

constexpr SentPicture plainPicture{
    .format = AV_PIX_FMT_YUV420P, .width = 160, .height = 120, .range = 1};

} // namespace

TEST_CASE("an answer that may be true is taken as it was given", "[worker]")
{
    const auto bytes = packed(plainAnswer());
    const auto taken = openingAnswer(bytes.bytes());
    REQUIRE(taken);
    CHECK(taken->index.times() == plainAnswer().index.times());
    CHECK(taken->facts.remarks == plainAnswer().facts.remarks);
    CHECK(taken->facts.width == 160);
    CHECK(taken->facts.frames == 2);
}

TEST_CASE("an answer cut short or with something left over is refused", "[worker]")
{
    const auto packing = packed(plainAnswer());
    const auto whole = packing.bytes();
    for (std::size_t size = 0; size < whole.size(); ++size) {
        CHECK(!openingAnswer(whole.first(size)));
    }
    CHECK(!openingAnswer(packed(plainAnswer()).add(true).bytes()));
}

TEST_CASE("an answer that cannot be true is refused", "[worker]")
{
    const double nan = std::nan("");
    const double infinity = std::numeric_limits<double>::infinity();
    auto answer = plainAnswer();
    SECTION("no frame")
    {
        answer.index = FrameIndex();
    }
    SECTION("time runs back")
    {
        answer.index = FrameIndex({Seconds{0}, Seconds{-1}});
    }
    SECTION("time is no number")
    {
        answer.index = FrameIndex({Seconds{0}, Seconds{nan}});
    }
    SECTION("time has no end")
    {
        answer.index = FrameIndex({Seconds{0}, Seconds{infinity}});
    }
    SECTION("time begins late")
    {
        answer.index = FrameIndex({Seconds{1}, Seconds{2}});
    }
    SECTION("a group too few")
    {
        answer.groupStarts = {0};
    }
    SECTION("a group behind its frame")
    {
        answer.groupStarts = {0, 2};
    }
    SECTION("a group before the clip")
    {
        answer.groupStarts = {0, -1};
    }
    SECTION("no width")
    {
        answer.shape.storedWidth = 0;
    }
    SECTION("less than no height")
    {
        answer.shape.storedHeight = -120;
    }
    SECTION("more pixels than are decoded")
    {
        answer.shape.storedWidth = 1 << 30;
    }
    SECTION("an aspect of none")
    {
        answer.shape.pixelAspect = nan;
    }
    SECTION("an aspect of a thousand")
    {
        answer.shape.pixelAspect = 1000;
    }
    SECTION("a turn by some")
    {
        answer.shape.orientation.clockwiseDegrees = 45;
    }
    SECTION("no slow motion at all")
    {
        answer.facts.slowMotion = 0;
    }
    SECTION("a rate that is no number")
    {
        answer.facts.captureRate = nan;
    }
    SECTION("a rate below zero")
    {
        answer.facts.containerRate = -30;
    }
    SECTION("no end")
    {
        answer.facts.duration = Seconds{infinity};
    }
    SECTION("remarks without end")
    {
        answer.facts.remarks.assign(1000, "Beware.");
    }
    CHECK(!isTaken(answer));
}

TEST_CASE("words from a worker are one line, however it wrote them", "[worker]")
{
    const auto told =
        errorIn(packed(Error{Error::Kind::Damaged, "Red\x1b[31m.\nMore.", {}}).bytes());
    REQUIRE(told);
    CHECK(told->sentence == "Red [31m. More.");
    CHECK(!errorIn(packed(Error{static_cast<Error::Kind>(99), "A reason.", {}}).bytes()));
    CHECK(!errorIn(packed(Error{Error::Kind::Damaged, "", {}}).bytes()));
    const auto endless =
        errorIn(packed(Error{Error::Kind::Damaged, std::string(1 << 20, 'a'), {}}).bytes());
    REQUIRE(endless);
    CHECK(endless->sentence.size() == 4096);
}

TEST_CASE("room is made for pictures that can be, and for no others", "[worker]")
{
    REQUIRE(roomFor(plainPicture));
    CHECK(*roomFor(plainPicture) >= 160 * 120 * 3 / 2);
    auto picture = plainPicture;
    SECTION("no format")
    {
        picture.format = -1;
    }
    SECTION("a format that is not")
    {
        picture.format = 100'000;
    }
    SECTION("pixels on a graphics card")
    {
        picture.format = AV_PIX_FMT_VAAPI;
    }
    SECTION("no width")
    {
        picture.width = 0;
    }
    SECTION("less than no height")
    {
        picture.height = -1;
    }
    SECTION("too many pixels")
    {
        picture.width = picture.height = 100'000;
    }
    SECTION("pixels that overflow")
    {
        picture.width = picture.height = INT32_MAX;
    }
    SECTION("a colour that is not")
    {
        picture.transfer = -7;
    }
    SECTION("another")
    {
        picture.matrix = 1 << 20;
    }
    CHECK(!roomFor(picture));
}

TEST_CASE("a picture larger than its room is not taken", "[worker]")
{
    const auto room = Room::make(*roomFor(plainPicture));
    REQUIRE(room);
    PictureTaker taker;
    CHECK(taker.take(plainPicture, *room));
    auto larger = plainPicture;
    larger.height = 1200;
    CHECK(!taker.take(larger, *room));
}
