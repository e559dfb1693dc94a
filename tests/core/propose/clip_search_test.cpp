// SPDX-License-Identifier: GPL-3.0-or-later
// The last two run the network: some forty looks of an eighth of a second.
#include "core/propose/clip_search.hpp"
#include "tests/catch.hpp"
#include "tests/core/propose/pictures.hpp"

using namespace latemile;
using namespace latemile::tests;

TEST_CASE("a box in the middle of the stretch leads to the runner both ways", "[propose]")
{
    auto clip = ClipReader::open(sampleClip());
    REQUIRE(clip);
    auto network = PoseNetwork::open(resources());
    REQUIRE(network);
    std::vector<FrameNumber> frames;
    for (int number = 100; number <= 180; ++number) {
        frames.push_back({number});
    }
    const auto path =
        cropPathThrough([&clip](FrameNumber frame) { return clip->frame(frame); }, clip->index(),
                        *network, frames, RunnerBox{{140}, {500, 120, 260, 530}}, {});
    REQUIRE(path);
    for (const int number : {100, 140, 180}) {
        const auto body =
            network->find(clip->frame({number})->picture, path->at(clip->index().time({number})));
        REQUIRE(body);
        CHECK(body->presence > 0.9);
    }
}

TEST_CASE("a search of a clip's file gives the frames in order of time, and what it has when ended",
          "[propose]")
{
    auto clip = ClipReader::open(sampleClip());
    REQUIRE(clip);
    const CropPath path({{clip->index().time({140}), cropRound(Box{500, 120, 260, 530})}});
    ClipSearch search{.clip = sampleClip(),
                      .options = {},
                      .resources = resources(),
                      .frames = {{150}, {140}, {145}},
                      .box = {},
                      .path = path};
    double last = 0;
    const auto all = searchClipFile(search, [&last](double share) {
        last = share;
        return true;
    });
    REQUIRE(all);
    CHECK(last == Approx(1.0));
    REQUIRE(all->found.size() == 3);
    CHECK(all->found[0].frame == FrameNumber{140});
    CHECK(all->found[2].frame == FrameNumber{150});

    const auto some = searchClipFile(search, [](double) { return false; });
    REQUIRE(some);
    REQUIRE(some->found.size() >= 1); // one a worker
    CHECK(some->found.front().body.presence > 0.9);

    // Far from where she is known she is followed all the way there.
    search.frames = {{250}};
    const auto far = searchClipFile(search, {});
    REQUIRE(far);
    const auto& known = far->path->known();
    CHECK(known.back().time == clip->index().time({250}));
    for (std::size_t k = 1; k < known.size(); ++k) {
        CHECK((known[k].time - known[k - 1].time).count() < 0.25);
    }

    search.resources = "/nowhere";
    const auto none = searchClipFile(search, {});
    REQUIRE(!none);
    CHECK_THAT(none.error().sentence, containing("Proposals are off"));
}
