// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/spread_pictures.hpp"

#include "core/clip/clip_reader.hpp"
#include "tests/catch.hpp"
#include "tests/core/clip/every_frame.hpp"
#include "tests/core/clip/fixtures.hpp"
#include "tests/core/clip/plain_decode.hpp"

using namespace latemile;
using namespace latemile::test;

namespace {

using Frames = std::vector<std::int64_t>;

/// What decoding has to begin with for each of `frames` frames, by the frames that begin a group.
Frames groups(std::int64_t frames, const Frames& starts)
{
    Frames of;
    for (std::int64_t frame = 0, group = 0; frame < frames; ++frame) {
        const bool next =
            group + 1 < std::ssize(starts) && starts[static_cast<std::size_t>(group + 1)] == frame;
        group += next ? 1 : 0;
        of.push_back(starts[static_cast<std::size_t>(group)]);
    }
    return of;
}

} // namespace

TEST_CASE("frames spread over a clip are key frames where such are near", "[clip]")
{
    // By hand: seven places of 672 frames are 0, 111, 223, 335, 447, 559 and 671, each its own up
    // to 55 frames away; 596 is 37 from the sixth and 75 from the seventh.
    CHECK(spreadFrames(groups(672, {0, 119, 238, 357, 476, 596}), 7) ==
          Frames{0, 119, 238, 357, 476, 596, 671});
    CHECK(spreadFrames(groups(672, {0}), 7) == Frames{0, 111, 223, 335, 447, 559, 671});
    CHECK(spreadFrames(groups(5, {0, 1, 2, 3, 4}), 3) == Frames{0, 2, 4});
    CHECK(spreadFrames(groups(5, {0, 3}), 7) == Frames{0, 1, 2, 3, 4});
    CHECK(spreadFrames(groups(5, {0, 3}), 1) == Frames{0});
}

TEST_CASE("pictures spread over a clip are its frames, in order of time", "[clip]")
{
    const auto file =
        made("spread.mp4", movingPicture(50) + "-pix_fmt yuv420p -c:v libx264 -bf 2 -g 12 "
                                               "-x264opts scenecut=0");
    std::vector<double> shares;
    const auto pictures = spreadPictures(file, 5, [&shares](double share) {
                              shares.push_back(share);
                              return true;
                          }).value();
    // Key frames 0, 12, 24, 36 and 48, each within five frames of 0, 12, 24, 36 and 49.
    const auto plain = plainDecode(file);
    REQUIRE(pictures.size() == 5);
    for (std::size_t i = 0; i < pictures.size(); ++i) {
        CAPTURE(i);
        CHECK(hashOf(pictures[i]) == plain[i * 12].hash);
    }
    CHECK(std::is_sorted(shares.begin(), shares.end()));
    CHECK(shares.back() == Approx(0.25 + 0.75 * 4 / 5));
    const auto stopped = spreadPictures(file, 5, [](double share) { return share < 0.5; });
    REQUIRE(!stopped);
    CHECK(stopped.error().kind == Error::Kind::Cancelled);
}
