// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/c3d.hpp"
#include "tests/catch.hpp"
#include "tests/core/exchange/c3d_reader.hpp"
#include "tests/core/measures/worked_example.hpp"

using namespace latemile;
using namespace latemile::testing;
using namespace latemile::tests;

namespace {

C3dFile written(const MarkedClip& clip)
{
    const auto prepared = prepare(clip);
    REQUIRE(prepared);
    const auto bytes = c3dBytes(*prepared, clip.marking);
    REQUIRE(bytes);
    return C3dReader(*bytes).read();
}

std::string refusal(const MarkedClip& clip)
{
    const auto prepared = prepare(clip);
    REQUIRE(prepared);
    const auto bytes = c3dBytes(*prepared, clip.marking);
    REQUIRE_FALSE(bytes);
    return bytes.error().sentence;
}

std::size_t columnOf(const C3dFile& file, const std::string& name)
{
    const auto labels = textsOf(file.parameters.at("POINT:LABELS"));
    return static_cast<std::size_t>(std::find(labels.begin(), labels.end(), name) - labels.begin());
}

} // namespace

TEST_CASE("a C3D file holds the points in millimetres, forward and up", "[exchange][c3d][outside]")
{
    // Outside: the C3D user guide (c3d.org) by the reader beside this test; the worked example by
    // hand: 0.4 cm a pixel, ankle 65 px ahead of the hip and 195 px below it at contact.
    const auto file = written(exampleClip());
    CHECK(file.points == 9);
    CHECK(file.firstFrame == 51); // frame 50 of the clip, counted from 1
    CHECK(file.lastFrame == 177);
    CHECK(file.rate == Approx(500.0));
    CHECK(file.scale < 0.0F); // floating-point numbers
    CHECK(textsOf(file.parameters.at("POINT:UNITS")) == std::vector<std::string>{"mm"});
    const auto& contact = file.frames.front();
    const auto hip = contact.at(columnOf(file, "near_hip"));
    const auto ankle = contact.at(columnOf(file, "near_ankle"));
    CHECK(ankle.x - hip.x == Approx(260.0).margin(0.01));
    CHECK(hip.z - ankle.z == Approx(780.0).margin(0.01));
    CHECK(hip.y == 0.0F);
    CHECK(hip.residual == Approx(80.0)); // 2 px of 4 mm, in tenths of a millimetre
}

TEST_CASE("a point that is not marked on a frame is invalid in C3D", "[exchange][c3d]")
{
    const auto file = written(exampleClip());
    for (const auto& point : file.frames.at(1)) {
        CHECK(point.residual == -1.0F);
    }
    CHECK(file.frames.size() == 127);
}

TEST_CASE("contacts and toe-offs are events of a C3D file", "[exchange][c3d]")
{
    const auto file = written(exampleClip());
    const auto labels = textsOf(file.parameters.at("EVENT:LABELS"));
    const auto contexts = textsOf(file.parameters.at("EVENT:CONTEXTS"));
    const auto times = floatsOf(file.parameters.at("EVENT:TIMES"));
    REQUIRE(labels.size() == 5);
    CHECK(labels[0] == "Contact");
    CHECK(labels[1] == "Toe-off");
    CHECK(contexts[0] == "Right");
    CHECK(contexts[2] == "Left");
    REQUIRE(times.size() == 10);
    CHECK(times[0] == 0.0F); // minutes
    CHECK(times[1] == Approx(0.1));
    CHECK(times[3] == Approx(0.352));
}

TEST_CASE("a clip that C3D cannot hold is refused with the reason", "[exchange][c3d][refusals]")
{
    auto clip = exampleClip();
    SECTION("uneven frames")
    {
        auto times = clip.index.times();
        for (std::size_t i = 100; i < times.size(); ++i) {
            times[i] += Seconds{0.002};
        }
        clip.index = FrameIndex(times);
        CHECK(refusal(clip).find("frames 99 and 100 are 4.0 ms apart and most others 2.0 ms") !=
              std::string::npos);
    }
    SECTION("no scale")
    {
        clip.conditions.scene.scale.reset();
        clip.athlete.legLengthCm.reset();
        CHECK(refusal(clip).find("has no scale") != std::string::npos);
    }
    SECTION("no marks")
    {
        clip.marking.marks.clear();
        CHECK(refusal(clip).find("has no mark yet") != std::string::npos);
    }
}
