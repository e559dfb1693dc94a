// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/clip_reader.hpp"

#include "tests/catch.hpp"
#include "tests/core/clip/every_frame.hpp"
#include "tests/core/clip/fixtures.hpp"
#include "tests/core/clip/plain_decode.hpp"

#include <algorithm>

using namespace latemile;
using namespace latemile::test;

namespace {

/// Real time of each frame against libav's own presentation times.
void checkTimes(const std::filesystem::path& file, double tolerance = 1e-6)
{
    INFO(file.string());
    const auto plain = plainDecode(file);
    const auto reader = ClipReader::open(file).value();
    REQUIRE(reader.index().size() == std::ssize(plain));
    for (std::int64_t n = 0; n < reader.index().size(); ++n) {
        INFO("frame " << n);
        CHECK(reader.index().time({n}).count() ==
              Approx(plain[static_cast<std::size_t>(n)].seconds - plain[0].seconds)
                  .margin(tolerance));
    }
}

const std::string x264 = "-pix_fmt yuv420p -c:v libx264 -preset fast ";

} // namespace

TEST_CASE("every codec in every container gives each frame exactly, in any order",
          "[clip][outside]")
{
    for (const auto& file : everyCodecAndContainer()) {
        checkEveryFrame(file);
    }
}

TEST_CASE("frames shown before a key frame but decoded after it are exact", "[clip][outside]")
{
    checkEveryFrame(
        made("open_gop_h264.mp4", movingPicture(60) + x264 +
                                      "-x264-params open-gop=1:keyint=12:min-keyint=12:bframes=3:"
                                      "b-pyramid=normal:scenecut=0"));
    checkEveryFrame(made("open_gop_h264.mkv", "-i @open_gop_h264.mp4 -c copy"));
    checkEveryFrame(made("open_gop_hevc.mp4",
                         movingPicture(60) +
                             "-pix_fmt yuv420p -c:v libx265 -preset superfast -x265-params "
                             "log-level=none:open-gop=1:keyint=12:min-keyint=12:bframes=3"));
    checkEveryFrame(made("open_gop_hevc.mkv", "-i @open_gop_hevc.mp4 -c copy"));
    // A copy from within such a stream begins with frames whose references are gone.
    checkEveryFrame(made("open_gop_hevc_cut.mkv", "-ss 0.9 -i @open_gop_hevc.mkv -c copy"));
    checkEveryFrame(made("open_gop_h264_cut.mkv", "-ss 0.9 -i @open_gop_h264.mkv -c copy"));
}

TEST_CASE("a stream refreshed bit by bit, without whole key frames, is exact", "[clip][outside]")
{
    checkEveryFrame(made("intra_refresh.mp4",
                         movingPicture(60) + x264 + "-x264-params intra-refresh=1:keyint=15"));
}

TEST_CASE("an edit list hides frames that are decoded but not shown", "[clip][outside]")
{
    const auto whole = made("edit_whole.mp4", movingPicture(60) + x264 + "-bf 3 -g 20");
    const auto cut = made("edit_cut.mp4", "-ss 1.1 -i @edit_whole.mp4 -c copy");
    checkEveryFrame(cut);
    checkTimes(cut);
    CHECK(ClipReader::open(cut)->index().size() < ClipReader::open(whole)->index().size() - 30);
}

TEST_CASE("a clip that starts late or keeps its own time is exact and starts at zero",
          "[clip][outside]")
{
    for (const auto* name : {"late_start.mp4", "late_start.mkv", "late_start.mov"}) {
        const auto file = made(name, movingPicture(40) + x264 + "-bf 2 -g 12 -output_ts_offset 5");
        checkEveryFrame(file);
        checkTimes(file, 1e-3);
        CHECK(ClipReader::open(file)->index().time({0}).count() == 0);
    }
}

TEST_CASE("a variable rate is kept frame by frame", "[clip][outside]")
{
    const std::string dropped = "-vf \"select='not(eq(mod(n,7),3))'\" -fps_mode vfr ";
    for (const auto* name : {"variable.mp4", "variable.mkv"}) {
        const auto file = made(name, movingPicture(40) + dropped + x264 + "-bf 2 -g 12");
        checkEveryFrame(file);
        checkTimes(file);
        const auto reader = ClipReader::open(file).value();
        CHECK(reader.facts().variableRate);
        CHECK(reader.facts().longestGap == Approx(2.0 / 30).margin(0.0011));
    }
}

TEST_CASE("a cover picture is no frame of the clip", "[clip][outside]")
{
    static_cast<void>(made("cover.png", movingPicture(1, 400, 300)));
    for (const auto* name : {"cover.mp4", "cover.mkv"}) {
        static_cast<void>(made("plain_for_cover.mp4", movingPicture(30) + x264));
        const bool isMkv = std::string(name).ends_with("mkv");
        const auto file =
            made(name, isMkv ? "-i @plain_for_cover.mp4 -c copy -attach @cover.png "
                               "-metadata:s:t mimetype=image/png"
                             : "-i @plain_for_cover.mp4 -i @cover.png -map 0 -map 1 -c copy "
                               "-disposition:v:1 attached_pic");
        checkEveryFrame(file, {.captureRate = {}, .fieldsAsFrames = false, .videoStream = 0});
        CHECK(ClipReader::open(file)->facts().width == 160);
    }
}

TEST_CASE("of several video streams the best is read and any other can be chosen",
          "[clip][outside]")
{
    const auto file =
        made("two_streams.mkv", "-f lavfi -i testsrc2=size=96x64:rate=30 -f lavfi -i "
                                "mandelbrot=size=160x120:rate=30 -map 0 -map 1 -frames:v 24 "
                                "-disposition:v:0 0 -disposition:v:1 0 " +
                                    x264 + "-g 8");
    const auto best = ClipReader::open(file).value();
    CHECK(best.facts().width == 160);
    const auto& remarks = best.facts().remarks;
    CHECK(std::any_of(remarks.begin(), remarks.end(), [](const auto& remark) {
        return remark.find("several video streams: 0 (h264, 96x64), 1 (h264, 160x120)") !=
               std::string::npos;
    }));
    for (const int stream : {0, 1}) {
        checkEveryFrame(file, {.captureRate = {}, .fieldsAsFrames = false, .videoStream = stream});
    }
    const auto none =
        ClipReader::open(file, {.captureRate = {}, .fieldsAsFrames = false, .videoStream = 7});
    REQUIRE(!none);
    CHECK(none.error().sentence.find("has no video stream 7; it has 0 (h264, 96x64)") !=
          std::string::npos);
}

TEST_CASE("one frame, odd sizes and a transport stream are read like any other", "[clip][outside]")
{
    checkEveryFrame(made("single.mp4", movingPicture(1) + x264));
    checkEveryFrame(made("odd_vp9.webm", movingPicture(20, 161, 121) +
                                             "-pix_fmt yuv420p -c:v libvpx-vp9 -cpu-used 5"));
    checkEveryFrame(made("odd_444.mp4", movingPicture(20, 161, 121) +
                                            "-pix_fmt yuv444p -c:v libx264 -preset fast"));
    checkEveryFrame(
        made("odd_mjpeg.avi", movingPicture(20, 33, 35) + "-pix_fmt yuvj420p -c:v mjpeg"));
    checkEveryFrame(made("transport.ts", movingPicture(40) + x264 + "-bf 2 -g 12"));
}

TEST_CASE("interlaced frames are exact as frames", "[clip][outside]")
{
    checkEveryFrame(made("interlaced.mp4", movingPicture(80) + "-vf tinterlace=4 " + x264 +
                                               "-flags +ildct+ilme -x264opts tff=1 -bf 2 -g 12"));
}
