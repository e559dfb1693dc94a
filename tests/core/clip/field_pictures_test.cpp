// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/clip_reader.hpp"
#include "core/clip/frame_source.hpp"

#include "tests/catch.hpp"
#include "tests/core/clip/fixtures.hpp"
#include "tests/core/clip/plain_decode.hpp"

#include <algorithm>
#include <cstdlib>
#include <numeric>
#include <random>

using namespace latemile;
using namespace latemile::test;

namespace {

/// 40 frames of two fields each; the two fields show neighbouring moments.
std::filesystem::path interlacedClip(bool topFirst)
{
    return made(topFirst ? "fields_top.mp4" : "fields_bottom.mkv",
                movingPicture(40, 160, 128, 50) +
                    "-vf tinterlace=" + (topFirst ? "interleave_top" : "interleave_bottom") +
                    " -pix_fmt yuv420p -c:v libx264 -preset fast -flags +ildct+ilme -x264opts " +
                    (topFirst ? "tff=1" : "bff=1") + " -bf 2 -g 12 -color_range tv");
}

const ClipOptions asFields{.captureRate = {}, .fieldsAsFrames = true, .videoStream = {}};

} // namespace

TEST_CASE("an interlaced clip is reported, and read as fields it has twice the rate", "[clip]")
{
    const auto frames = ClipReader::open(interlacedClip(true)).value();
    CHECK(frames.facts().interlaced);
    CHECK(frames.facts().frames == 40);
    CHECK(frames.facts().containerRate == Approx(25));
    const auto fields = ClipReader::open(interlacedClip(true), asFields).value();
    CHECK(fields.facts().frames == 80);
    CHECK(fields.facts().containerRate == Approx(50));
    CHECK(fields.index().time({7}).count() == Approx(0.14));
    CHECK(fields.facts().duration.count() == Approx(1.6));
    const auto progressive = ClipReader::open(
        made("progressive.mp4", movingPicture(10) + "-pix_fmt yuv420p -c:v libx264"), asFields);
    CHECK(!progressive->facts().interlaced);
    CHECK(progressive->facts().frames == 10);
}

TEST_CASE("fields are those of the ffmpeg program, in any order", "[clip][outside]")
{
    const bool topFirst = GENERATE(true, false);
    const auto file = interlacedClip(topFirst);
    const auto raw = outputOf("-i @" + file.filename().string() +
                              " -vf bwdif=mode=send_field:deint=all,scale -pix_fmt bgra "
                              "-f rawvideo");
    constexpr std::size_t pictureBytes = 160 * 128 * 4;
    REQUIRE(raw.size() == pictureBytes * 80);
    auto reader = ClipReader::open(file, asFields).value();
    std::vector<std::int64_t> order(80);
    std::iota(order.begin(), order.end(), 0);
    std::vector<std::uint64_t> hashes(80);
    for (const auto n : order) {
        const auto frame = reader.frame({n});
        REQUIRE(frame);
        hashes[static_cast<std::size_t>(n)] = hashOf(frame->picture);
        int largest = 0;
        for (std::size_t y = 0; y < 128; ++y) {
            for (std::size_t x = 0; x < 160 * 4; ++x) {
                const int theirs = static_cast<unsigned char>(
                    raw[static_cast<std::size_t>(n) * pictureBytes + y * 640 + x]);
                const int ours = frame->picture.row(static_cast<int>(y))[x];
                largest = x % 4 == 3 ? largest : std::max(largest, std::abs(ours - theirs));
            }
        }
        INFO("field " << n);
        CHECK(largest <= 2);
    }
    std::shuffle(order.begin(), order.end(), std::mt19937(5));
    for (const auto n : order) {
        INFO("field " << n);
        REQUIRE(hashOf(reader.frame({n})->picture) == hashes[static_cast<std::size_t>(n)]);
    }
    const auto source = FrameSource::open(file, asFields).value();
    std::reverse(order.begin(), order.end());
    for (const auto n : order) {
        INFO("field " << n);
        REQUIRE(hashOf(source->frame({n})->picture) == hashes[static_cast<std::size_t>(n)]);
    }
}
