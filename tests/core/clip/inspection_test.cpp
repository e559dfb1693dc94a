// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/inspection.hpp"

#include "tests/catch.hpp"
#include "tests/core/clip/fixtures.hpp"

using namespace latemile;
using namespace latemile::test;

TEST_CASE("an inspection tells size, rate, duration and remarks", "[clip]")
{
    const auto file = made("for_inspection.mp4", movingPicture(45) + "-pix_fmt yuv420p "
                                                                     "-c:v libx264");
    const auto facts =
        ClipReader::open(file, {.captureRate = 240, .fieldsAsFrames = false, .videoStream = {}})
            ->facts();
    const auto json = inspectionJson(file, facts);
    CHECK(json.at("version") == 1);
    CHECK(json.at("file") == "for_inspection.mp4");
    CHECK(json.at("codec") == "h264");
    CHECK(json.at("width") == 160);
    CHECK(json.at("frames") == 45);
    CHECK(json.at("container_fps") == 30);
    CHECK(json.at("capture_fps") == 240);
    CHECK(json.at("slow_motion") == 8);
    // 45 frames of 1/240 s.
    CHECK(json.at("duration_s").get<double>() == Approx(0.1875).margin(1e-9));
    CHECK(json.at("remarks").at(0) ==
          "Container says 30 frames/s; capture rate 240 stated: 8 times slow motion.");

    const auto text = inspectionText(file, facts);
    CHECK(text.find("Picture      160 x 120\n") != std::string::npos);
    CHECK(text.find("240 frames/s (from stated), played at 30 frames/s: 8 times slow motion") !=
          std::string::npos);
}

TEST_CASE("an inspection of a file with a strange name is still valid UTF-8", "[clip]")
{
    ClipFacts facts;
    facts.remarks = {"\xff remark"};
    const auto json = inspectionJson("caf\xe9.mp4", facts);
    CHECK_NOTHROW(json.dump());
    CHECK(json.at("file") == "caf\xef\xbf\xbd.mp4");
}
