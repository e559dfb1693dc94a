// SPDX-License-Identifier: GPL-3.0-or-later
// What the pose network saw on the sample's late clip (data/late.looks, kept by the window) against
// the truth the clip was rendered from, which another program made. The goals are this project's;
// none of the numbers is from the code under test. The network itself is not run.
#include "core/follow/contact_finder.hpp"
#include "core/propose/looks_file.hpp"
#include "core/propose/proposals.hpp"
#include "tests/bench/propose_misses.hpp"
#include "tests/catch.hpp"
#include "tests/core/propose/pictures.hpp"
#include "tests/project_folders.hpp"
#include "tests/scratch_folder.hpp"

using namespace latemile;
using namespace latemile::bench;
using namespace latemile::tests;

namespace {

struct LateClip {
    ScratchFolder folder;
    std::filesystem::path file = folder / "late.mp4";
    ClipReader reader;
    Truth truth;
    Proposals proposals;

    LateClip() : reader(opened(folder)), truth(truthOf(file, reader))
    {
        const auto kept = looksOf(reader.index(), file);
        REQUIRE(kept);
        const auto paths =
            bodyPathsFrom(kept->found, std::nullopt, reader.facts().width, reader.facts().height);
        REQUIRE(paths);
        proposals = proposalsFrom(*paths, {});
    }

private:
    static ClipReader opened(const ScratchFolder& folder)
    {
        const auto clip = std::filesystem::path(sampleClip());
        const auto data = sourceFolder() / "tests/core/propose/data/late.looks";
        std::filesystem::copy_file(clip, folder / "late.mp4");
        std::filesystem::copy_file(std::filesystem::path(clip).replace_extension(".truth.json"),
                                   folder / "late.truth.json");
        std::filesystem::copy_file(data, folder / "late.mp4.looks");
        return need(ClipReader::open(folder / "late.mp4"));
    }
};

} // namespace

TEST_CASE("without a mark near landmarks lie within the goals, legs are told, far misses doubted",
          "[propose]")
{
    const LateClip clip;
    MissesByPart misses;
    add(misses, clip.truth, clip.proposals);
    double within = 0;
    double axes = 0;
    for (const auto& [part, one] : misses) {
        CAPTURE(nameOf(part.side), nameOf(part.landmark));
        const bool isOfTrunk = part.landmark < Landmark::Knee; // ear, shoulder, hip: 3 cm
        CHECK(quantile(one.cm, 0.5) <= (isOfTrunk ? 3.0 : 2.0));
        CHECK(one.farOff == 0);
        within += one.within;
        axes += one.axes;
    }
    CHECK(within >= 0.90 * axes);
    const auto legs = legsTold(clip.truth, clip.proposals);
    CHECK(legs.frames > 600);
    CHECK(static_cast<double>(legs.exchanged) <= 0.01 * static_cast<double>(legs.frames));
}

TEST_CASE("contacts of the whole clip are found without a mark, within a frame", "[propose]")
{
    LateClip clip;
    Marking marking;
    marking.marks = marksOf(clip.proposals);
    const auto found = findContacts(clip.reader, marking, clip.truth.scene);
    REQUIRE(found);
    const auto end = clip.reader.index().times().back();
    for (const auto foot : {clip.truth.nearFoot, otherFoot(clip.truth.nearFoot)}) {
        const auto misses = missesOf(clip.truth, end, foot, Event::Contact, found->stances);
        CHECK(misses.all >= 7);
        CHECK(misses.withinFrame >= 0.9 * misses.all);
        CHECK(misses.withinTwoErrors >= 0.9 * misses.all);
    }
}
