// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/filming/next_visit.hpp"

#include "tests/catch.hpp"
#include "tests/project_folders.hpp"

using namespace latemile;

namespace {

const std::filesystem::path athlete = tests::sourceFolder() / "sample_clips" / "ilse-varga";

} // namespace

TEST_CASE("the visit before is the last earlier day with clips", "[filming]")
{
    CHECK_FALSE(visitBefore(athlete / "2026-08-29"));
    const auto before = visitBefore(athlete / "2026-10-24" / "");
    REQUIRE(before);
    CHECK(before->folder.filename() == "2026-09-26");
    CHECK(visitBefore(athlete / "2026-12-01")->folder.filename() == "2026-10-24");
}

TEST_CASE("clips of a re-film follow the order of the last visit", "[filming]")
{
    const auto before = readSession(athlete / "2026-10-24").value();
    Session today;
    std::vector<std::string> order;
    while (const auto* like = nextLike(before, today)) {
        order.push_back(like->condition + " " + std::string(nameOf(like->scene.view)));
        today.clips.push_back(startedLike(*like, "clips/x.mp4"));
    }
    CHECK(order == std::vector<std::string>{"fresh left-side", "fatigued left-side", "other rear"});
    CHECK(sameOf(before, today.clips[1])->file == "clips/late.mp4");
}

TEST_CASE("a re-film starts with what stays and without what only today knows", "[filming]")
{
    auto before = readSession(athlete / "2026-08-29").value().clips.front();
    before.scene.captureRate = 240;
    const auto clip = startedLike(before, "clips/new.mp4");
    CHECK(clip.file == "clips/new.mp4");
    CHECK(clip.condition == "fresh");
    CHECK(clip.minute == before.minute);
    CHECK(clip.shoes == before.shoes);
    CHECK(clip.inclinePercent == before.inclinePercent);
    CHECK(clip.scene.beltSpeed == before.scene.beltSpeed);
    CHECK_FALSE(hasLines(clip.scene));
    CHECK_FALSE(clip.scene.captureRate);
    CHECK_FALSE(clip.exertion);
    CHECK_FALSE(clip.pain);
    CHECK(clip.marking == Marking{});
    const auto lined = withLinesOf(clip.scene, before.scene);
    CHECK(lined.scale == before.scene.scale);
    CHECK(lined.plumb == before.scene.plumb);
    CHECK_FALSE(lined.captureRate);
}
