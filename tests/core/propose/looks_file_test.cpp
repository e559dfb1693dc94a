// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/looks_file.hpp"

#include "tests/catch.hpp"
#include "tests/core/propose/even_index.hpp"
#include "tests/core/propose/modelled_bodies.hpp"
#include "tests/scratch_folder.hpp"

#include <cmath>

using namespace latemile;
using namespace latemile::tests;

namespace {

ClipLooks someLooks()
{
    ClipLooks looks{.found = ModelledRunner{.frames = 20}.bodies(),
                    .path = CropPath({{Seconds(0.0), {{400.5, 300.25}, 512.0, 0.01}},
                                      {Seconds(0.2), {{401.0, 300.0}, 500.0, -0.02}}}),
                    .box = RunnerBox{{3}, {10.5, 20.0, 200.0, 400.0}},
                    .turns = {{4}, {9}}};
    return looks;
}

} // namespace

TEST_CASE("what was seen of a clip comes back to a ten-thousandth of a pixel", "[propose]")
{
    const ScratchFolder folder;
    const auto clip = folder / "clips/fresh.mp4";
    (void)folder.file("clips/fresh.mp4", "");
    const auto looks = someLooks();
    const auto index = evenIndex(40, 60.0);
    REQUIRE(keepLooks(looks, index, clip));
    CHECK(std::filesystem::exists(folder / "clips/fresh.mp4.looks"));
    const auto back = looksOf(index, clip);
    REQUIRE(back);
    CHECK(back->box == looks.box);
    CHECK(back->turns == looks.turns);
    CHECK(back->path->at(Seconds(0.1)) == looks.path->at(Seconds(0.1)));
    REQUIRE(back->found.size() == looks.found.size());
    for (std::size_t i = 0; i < looks.found.size(); ++i) {
        const auto& was = looks.found[i];
        const auto& now = back->found[i];
        CHECK(now.frame == was.frame);
        CHECK(now.time.count() == Approx(was.time.count()));
        CHECK(now.body.presence == was.body.presence);
        CHECK(now.body.nextCrop == was.body.nextCrop);
        for (std::size_t p = 0; p < was.body.points.size(); ++p) {
            CHECK(std::abs(now.body.points[p].at.u - was.body.points[p].at.u) <= 0.00005001);
            CHECK(std::abs(now.body.points[p].at.v - was.body.points[p].at.v) <= 0.00005001);
            CHECK(std::abs(now.body.points[p].peak - was.body.points[p].peak) <= 0.00005001);
        }
    }
}

TEST_CASE("looks follow a capture rate that was set since", "[propose]")
{
    const ScratchFolder folder;
    const auto clip = folder / "fresh.mp4";
    REQUIRE(keepLooks(someLooks(), evenIndex(40, 60.0), clip));
    const auto back = looksOf(evenIndex(40, 240.0), clip);
    REQUIRE(back);
    CHECK(back->found[12].time.count() == Approx(0.05)); // of frame 12
    CHECK(back->path->known()[1].time.count() == Approx(12 / 240.0));
}

TEST_CASE("looks at another clip, damaged ones and none at all are no looks", "[propose][refusals]")
{
    const ScratchFolder folder;
    const auto clip = folder / "fresh.mp4";
    const auto index = evenIndex(40, 60.0);
    CHECK_FALSE(looksOf(index, clip));
    REQUIRE(keepLooks(someLooks(), index, clip));
    CHECK_FALSE(looksOf(evenIndex(41, 60.0), clip));
    const auto whole = bytesOf(folder / "fresh.mp4.looks");
    for (std::size_t size = 0; size + 2 < whole.size(); size += 97) {
        (void)folder.file("fresh.mp4.looks", whole.substr(0, size));
        CHECK_FALSE(looksOf(index, clip));
    }
    for (const auto& [from, to] : std::vector<std::pair<std::string, std::string>>{
             {"\"version\":1", "\"version\":2"},
             {"\"leg_turns\":[4,", "\"leg_turns\":[400,"},
             {"\"frame\":3", "\"frame\":-3"},
             {"59e42d71", "59e42d72"}}) {
        auto changed = whole;
        REQUIRE(changed.find(from) != std::string::npos);
        (void)folder.file("fresh.mp4.looks", changed.replace(changed.find(from), from.size(), to));
        CHECK_FALSE(looksOf(index, clip));
    }
}

TEST_CASE("exchanges of legs are forgotten for all clips of a folder, and nothing else",
          "[propose]")
{
    const ScratchFolder folder;
    const auto index = evenIndex(40, 60.0);
    for (const char* name : {"fresh.mp4", "late.mp4"}) {
        REQUIRE(keepLooks(someLooks(), index, folder / name));
    }
    const auto damaged = folder.file("other.mp4.looks", "{\"leg_turns\":[4");
    const auto film = folder.file("other.mp4", "no JSON");
    REQUIRE(forgetLegTurns(folder.path()));
    for (const char* name : {"fresh.mp4", "late.mp4"}) {
        const auto back = looksOf(index, folder / name);
        REQUIRE(back);
        CHECK(back->turns.empty());
        CHECK(back->found.size() == someLooks().found.size());
        CHECK(back->box == someLooks().box);
    }
    CHECK(bytesOf(damaged) == "{\"leg_turns\":[4");
    CHECK(bytesOf(film) == "no JSON");
}
