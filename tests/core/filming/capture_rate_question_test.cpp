// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/filming/capture_rate_question.hpp"

#include "tests/catch.hpp"

using namespace latemile;

namespace {

ClipFacts phoneClip(double containerRate, const char* from = "time stamps")
{
    ClipFacts facts;
    facts.codec = "hevc";
    facts.width = 1920;
    facts.height = 1080;
    facts.containerRate = containerRate;
    facts.captureRateFrom = from;
    facts.camera = "Lumen One";
    return facts;
}

} // namespace

TEST_CASE("only files that could hide slow motion are asked about", "[filming]")
{
    CHECK(mayBeSlowMotion(phoneClip(29.97)));
    CHECK(mayBeSlowMotion(phoneClip(60.0)));
    CHECK_FALSE(mayBeSlowMotion(phoneClip(119.9)));
    CHECK_FALSE(mayBeSlowMotion(phoneClip(30.0, "stated")));
    CHECK_FALSE(mayBeSlowMotion(phoneClip(30.0, "com.android.capture.fps")));
}

TEST_CASE("a camera is known again by what its files say", "[filming]")
{
    CHECK(cameraSignature(phoneClip(29.97)) == cameraSignature(phoneClip(30.02)));
    CHECK(cameraSignature(phoneClip(30)) != cameraSignature(phoneClip(60)));
    auto other = phoneClip(30);
    other.camera.clear();
    CHECK(cameraSignature(other) != cameraSignature(phoneClip(30)));
    CHECK(cameraSignature(other) == "hevc 1920x1080 at 30");
}
