// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/clip_reader.hpp"

#include "tests/catch.hpp"
#include "tests/core/clip/fixtures.hpp"

#include <algorithm>
#include <vector>

using namespace latemile;
using namespace latemile::test;

TEST_CASE("the camera's make and model are found where phones write them", "[clip]")
{
    // QuickTime metadata keys com.apple.quicktime.make and .model (Apple, QuickTime File Format);
    // user data make and model as libav names them.
    const auto keys =
        made("camera_keys.mov", movingPicture(5) +
                                    " -pix_fmt yuv420p -c:v libx264 -movflags use_metadata_tags "
                                    "-metadata com.apple.quicktime.make=Lumen "
                                    "-metadata com.apple.quicktime.model=One");
    CHECK(ClipReader::open(keys).value().facts().camera == "Lumen One");
    const auto none = made("camera_none.mp4", movingPicture(5) + " -pix_fmt yuv420p -c:v libx264");
    CHECK(ClipReader::open(none).value().facts().camera.empty());
}

TEST_CASE("opening a long clip tells how far it is and can be stopped", "[clip]")
{
    const auto file = made("long_to_open.mp4",
                           movingPicture(400) + " -pix_fmt yuv420p -c:v libx264 -preset fast");
    std::vector<double> shares;
    ClipOptions options;
    options.goOn = [&](double share) {
        shares.push_back(share);
        return true;
    };
    REQUIRE(ClipReader::open(file, options));
    REQUIRE(shares.size() >= 5);
    CHECK(std::is_sorted(shares.begin(), shares.end()));
    CHECK(shares.back() <= 1.0);
    options.goOn = [](double) { return false; };
    const auto stopped = ClipReader::open(file, options);
    REQUIRE_FALSE(stopped);
    CHECK(stopped.error().kind == Error::Kind::Cancelled);
}
