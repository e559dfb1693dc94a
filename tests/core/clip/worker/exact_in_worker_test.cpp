// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/frame_source.hpp"
#include "core/clip/inspection.hpp"

#include "tests/catch.hpp"
#include "tests/core/clip/every_frame.hpp"
#include "tests/core/clip/fixtures.hpp"
#include "tests/core/clip/plain_decode.hpp"
#include "tests/core/clip/worker/worker_processes.hpp"

#include <algorithm>
#include <numeric>
#include <random>

using namespace latemile;
using namespace latemile::test;

namespace {

const std::string x264 = "-pix_fmt yuv420p -c:v libx264 -preset fast ";

std::filesystem::path interlaced()
{
    return made("worker_interlaced.mp4", movingPicture(80) + "-vf tinterlace=4 " + x264 +
                                             "-flags +ildct+ilme -x264opts tff=1 -bf 2 -g 12");
}

/// One of each kind of picture that goes through the shared memory in another shape.
std::vector<std::filesystem::path> kindsOfPictures()
{
    return {made("worker_h264.mp4", movingPicture(50) + x264 + "-bf 3 -g 15"),
            made("worker_h264.avi", movingPicture(50) + x264 + "-bf 3 -g 15"),
            made("worker_hevc10.mp4",
                 movingPicture(50) +
                     "-pix_fmt yuv420p10le -c:v libx265 -preset superfast -tag:v hvc1 "
                     "-x265-params log-level=none:bframes=3:keyint=15:open-gop=0"),
            made("worker_vp9.webm", movingPicture(50) +
                                        "-pix_fmt yuv420p -c:v libvpx-vp9 -b:v 200k -deadline good "
                                        "-cpu-used 5 -lag-in-frames 16 -auto-alt-ref 1 -g 20"),
            interlaced(),
            made("worker_av1.mkv", movingPicture(30) +
                                       "-pix_fmt yuv420p -c:v libaom-av1 -b:v 200k -cpu-used 8 "
                                       "-g 20"),
            made("worker_odd_444.mp4",
                 movingPicture(20, 161, 121) + "-pix_fmt yuv444p -c:v libx264 -preset fast"),
            made("worker_transport.ts", movingPicture(40) + x264 + "-bf 2 -g 12"),
            made("worker_palette.gif", movingPicture(10)),
            made("worker_rgb.avi", movingPicture(10) + "-pix_fmt bgr24 -c:v rawvideo"),
            made("worker_pq.mkv",
                 movingPicture(20) +
                     "-pix_fmt yuv420p10le -c:v libx265 -preset superfast -x265-params "
                     "\"log-level=none:colorprim=bt2020:transfer=smpte2084:colormatrix=bt2020nc:"
                     "master-display=G(13250,34500)B(7500,3000)R(34000,16000)WP(15635,16450)"
                     "L(40000000,50)\"")};
}

const ClipOptions statedWrongly{.captureRate = -3, .fieldsAsFrames = false, .videoStream = {}};

ClipOptions watchedBy(std::function<bool(double)> goOn)
{
    ClipOptions options;
    options.goOn = std::move(goOn);
    return options;
}

std::string factsOf(const std::filesystem::path& file, const ClipOptions& options = {})
{
    const auto reader = ClipReader::open(file, options);
    return reader ? inspectionJson(file, reader->facts()).dump() : reader.error().sentence;
}

} // namespace

TEST_CASE("a worker's frames are those of plain decoding, in any order", "[worker][outside]")
{
    const InWorkers inWorkers;
    for (const auto& file : kindsOfPictures()) {
        checkEveryFrame(file);
    }
}

TEST_CASE("a worker finds the same facts, times and groups, or says the same sentence", "[worker]")
{
    const auto whole = bytesOf(made("worker_h264.mp4", movingPicture(50) + x264 + "-bf 3 -g 15"));
    auto files = kindsOfPictures();
    files.push_back(written("worker_text.mp4", "Notes on the run of 12 June.\n"));
    files.push_back(written("worker_no_moov.mp4", whole.substr(0, whole.size() / 2)));
    files.push_back(made("worker_sound.mp4", "-f lavfi -i sine -t 1 -c:a aac"));
    files.push_back(written("worker_nothing.mp4", ""));
    files.push_back(fixtureFolder() / "worker_missing.mp4");
    const auto front = bytesOf(
        made("worker_front.mp4", movingPicture(60) + x264 + "-bf 0 -g 12 -movflags +faststart"));
    files.push_back(written("worker_cut.mp4", front.substr(0, front.size() * 6 / 10)));
    for (const auto& file : files) {
        INFO(file.string());
        const auto here = factsOf(file);
        const auto impossible = factsOf(file, statedWrongly);
        const auto here0 = ClipReader::open(file);
        const InWorkers inWorkers;
        CHECK(factsOf(file) == here);
        CHECK(factsOf(file, statedWrongly) == impossible);
        const auto there = ClipReader::open(file);
        REQUIRE(there.has_value() == here0.has_value());
        CHECK((!there || there->index().times() == here0->index().times()));
    }
}

TEST_CASE("a worker's fields are those of this process", "[worker]")
{
    const ClipOptions asFields{.captureRate = {}, .fieldsAsFrames = true, .videoStream = {}};
    auto here = ClipReader::open(interlaced(), asFields).value();
    std::vector<std::int64_t> order(static_cast<std::size_t>(here.index().size()));
    std::iota(order.begin(), order.end(), 0);
    const InWorkers inWorkers;
    auto there = ClipReader::open(interlaced(), asFields).value();
    REQUIRE(there.index().size() == here.index().size());
    for (int round = 0; round < 2; ++round) {
        for (const auto n : order) {
            INFO("field " << n);
            CHECK(hashOf(there.frame({n})->picture) == hashOf(here.frame({n})->picture));
        }
        std::shuffle(order.begin(), order.end(), std::mt19937(4));
    }
}

TEST_CASE("what is followed, the shades, is the same from a worker", "[worker]")
{
    const auto file = made("worker_h264.mp4", movingPicture(50) + x264 + "-bf 3 -g 15");
    auto here = ClipReader::open(file).value();
    const InWorkers inWorkers;
    auto there = ClipReader::open(file).value();
    for (const std::int64_t n : {0, 1, 2, 30, 29, 49}) {
        CHECK(there.shades({n})->values == here.shades({n})->values);
    }
}

TEST_CASE("a source of frames reads ahead through its worker", "[worker]")
{
    const auto file = made("worker_h264.mp4", movingPicture(50) + x264 + "-bf 3 -g 15");
    const auto plain = plainDecode(file);
    const InWorkers inWorkers;
    const auto budget = GENERATE(FrameSource::defaultBudget(), std::size_t{1});
    const auto source = FrameSource::open(file, {}, budget).value();
    std::vector<std::int64_t> order(plain.size());
    std::iota(order.begin(), order.end(), 0);
    std::shuffle(order.begin(), order.end(), std::mt19937(5));
    for (const auto n : order) {
        CHECK(hashOf(source->frame({n})->picture) == plain[static_cast<std::size_t>(n)].hash);
    }
}

TEST_CASE("whoever waits for an opening is told how far it is and can stop it", "[worker]")
{
    const auto file = made("worker_long.mp4", movingPicture(400) + x264 + "-g 12");
    const InWorkers inWorkers;
    double share = 0;
    const auto tell = [&share](double done) {
        share = done;
        return true;
    };
    CHECK(ClipReader::open(file, watchedBy(tell)));
    CHECK(share > 0.5);
    const auto stopped = ClipReader::open(file, watchedBy([](double) { return false; }));
    REQUIRE(!stopped);
    CHECK(stopped.error().kind == Error::Kind::Cancelled);
    CHECK(stopped.error().sentence == "Opening the clip \"worker_long.mp4\" was stopped.");
}
