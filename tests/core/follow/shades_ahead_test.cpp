// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/shades_ahead.hpp"

#include "tests/catch.hpp"
#include "tests/scratch_folder.hpp"

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <string>

using namespace latemile;
using namespace latemile::tests;

namespace {

constexpr int frames = 40;

/// By the ffmpeg program: every frame another picture.
std::filesystem::path changingClip(const ScratchFolder& folder)
{
    const auto file = folder / "changing.mp4";
    const auto command = "ffmpeg -v error -y -f lavfi -i testsrc=s=320x240:r=60 -frames:v " +
                         std::to_string(frames) + " -vf noise=alls=30:allf=t -pix_fmt yuv420p '" +
                         file.string() + "'";
    REQUIRE(std::system(command.c_str()) == 0);
    return file;
}

bool isSame(const cv::Mat& part, const Shades& shades, const cv::Rect& where)
{
    for (int y = 0; y < part.rows; ++y) {
        for (int x = 0; x < part.cols; ++x) {
            const auto at =
                static_cast<std::size_t>(where.y + y) * static_cast<std::size_t>(shades.width) +
                static_cast<std::size_t>(where.x + x);
            if (part.at<std::uint8_t>(y, x) != shades.values[at]) {
                return false;
            }
        }
    }
    return true;
}

} // namespace

TEST_CASE("frames read ahead are those of the clip, in their order", "[follow]")
{
    const ScratchFolder folder;
    const auto file = changingClip(folder);
    auto ahead = ClipReader::open(file).value();
    auto plain = ClipReader::open(file).value();
    const cv::Rect part(10, 20, 100, 80);
    ShadesAhead shades(ahead, {3}, {frames - 1}, part);
    for (std::int64_t i = 3; i < frames; ++i) {
        const auto read = shades.next();
        REQUIRE(read);
        CAPTURE(i);
        CHECK(isSame(*read, plain.shades({i}).value(), part));
    }
}

TEST_CASE("frames read at half the size are means of four pixels", "[follow]")
{
    const ScratchFolder folder;
    const auto file = changingClip(folder);
    auto ahead = ClipReader::open(file).value();
    auto plain = ClipReader::open(file).value();
    const cv::Rect part(10, 20, 100, 80);
    ShadesAhead smaller(ahead, {0}, {frames - 1}, part, 0.5);
    const auto half = smaller.next().value();
    const auto whole = plain.shades({0}).value();
    REQUIRE(half.size() == cv::Size(50, 40));
    const auto at = [&](int x, int y) {
        return static_cast<int>(whole.values[static_cast<std::size_t>(y * whole.width + x)]);
    };
    for (int y = 0; y < half.rows; ++y) {
        for (int x = 0; x < half.cols; ++x) {
            const int u = part.x + 2 * x;
            const int v = part.y + 2 * y;
            const double mean = (at(u, v) + at(u + 1, v) + at(u, v + 1) + at(u + 1, v + 1)) / 4.0;
            CHECK(std::abs(half.at<std::uint8_t>(y, x) - mean) <= 0.5);
        }
    }
}

TEST_CASE("who stops reading ahead has the clip back at once", "[follow]")
{
    const ScratchFolder folder;
    auto clip = ClipReader::open(changingClip(folder)).value();
    {
        ShadesAhead shades(clip, {0}, {frames - 1}, {0, 0, 50, 50});
        REQUIRE(shades.next());
    }
    CHECK(clip.shades({0}));
}

TEST_CASE("a frame that cannot be read ends reading ahead with its error", "[follow]")
{
    const ScratchFolder folder;
    auto clip = ClipReader::open(changingClip(folder)).value();
    ShadesAhead shades(clip, {frames - 2}, {frames + 5}, {0, 0, 50, 50});
    CHECK(shades.next());
    CHECK(shades.next());
    const auto beyond = shades.next();
    REQUIRE_FALSE(beyond);
    CHECK_FALSE(beyond.error().sentence.empty());
}
