// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/clip_reader.hpp"

#include "tests/catch.hpp"
#include "tests/core/clip/fixtures.hpp"
#include "tests/core/clip/plain_decode.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <random>

#include <sys/stat.h>

using namespace latemile;
using namespace latemile::test;

namespace {

const std::string x264 = "-pix_fmt yuv420p -c:v libx264 -preset fast ";

/// One clear sentence: it names the file, ends in a full stop and tells what to do.
void checkSentence(const std::filesystem::path& file, const std::string& part,
                   const ClipOptions& options = {})
{
    INFO(file.string());
    const auto clip = ClipReader::open(file, options);
    REQUIRE(!clip);
    const auto& sentence = clip.error().sentence;
    INFO(sentence);
    CHECK(sentence.find(part) != std::string::npos);
    CHECK(sentence.find(file.filename().string()) != std::string::npos);
    CHECK(sentence.back() == '.');
    CHECK(std::count(sentence.begin(), sentence.end(), '\n') == 0);
}

bool hasRemark(const ClipFacts& facts, const std::string& part)
{
    return std::any_of(facts.remarks.begin(), facts.remarks.end(),
                       [&](const auto& remark) { return remark.find(part) != std::string::npos; });
}

/// Bytes within the media data of a clip are changed, never its tables.
std::string flipped(std::string bytes, std::size_t first, std::size_t last, int count,
                    unsigned seed)
{
    std::mt19937 random(seed);
    std::uniform_int_distribution<std::size_t> place(first, last);
    for (int i = 0; i < count; ++i) {
        bytes[place(random)] ^= static_cast<char>(1 << random() % 8);
    }
    return bytes;
}

/// In any order, each frame is the one that reading in order gives, or a sentence.
void checkNeverWrong(const std::filesystem::path& file)
{
    INFO(file.string());
    auto inOrder = ClipReader::open(file);
    if (!inOrder) {
        CHECK(!inOrder.error().sentence.empty());
        return;
    }
    std::map<std::uint64_t, int> plain;
    for (const auto& frame : plainDecode(file)) {
        ++plain[frame.hash];
    }
    std::vector<std::uint64_t> hashes;
    std::vector<std::int64_t> order;
    for (std::int64_t n = 0; n < inOrder->index().size(); ++n) {
        const auto frame = inOrder->frame({n});
        hashes.push_back(frame ? hashOf(frame->picture) : 0);
        order.push_back(n);
        INFO("frame " << n);
        CHECK((frame ? plain.contains(hashes.back())
                     : frame.error().sentence.find("Frame " + std::to_string(n) + " of ") == 0));
    }
    auto anyOrder = ClipReader::open(file).value();
    std::shuffle(order.begin(), order.end(), std::mt19937(3));
    for (const auto n : order) {
        INFO("frame " << n);
        const auto frame = anyOrder.frame({n});
        const auto known = hashes[static_cast<std::size_t>(n)];
        CHECK((!frame || known == 0 || hashOf(frame->picture) == known));
    }
}

} // namespace

TEST_CASE("a file that is no clip is refused with one sentence", "[clip][bad]")
{
    checkSentence(fixtureFolder() / "missing.mp4", "There is no file");
    std::filesystem::create_directories(fixtureFolder() / "a_folder.mp4");
    checkSentence(fixtureFolder() / "a_folder.mp4", "is a folder");
    checkSentence(written("nothing.mp4", ""), "is empty");
    checkSentence(written("text.mp4", "Notes on the run of 12 June: easy, 40 minutes.\n"),
                  "is not a video that can be read");
    checkSentence(made("sound.mp4", "-f lavfi -i sine -t 1 -c:a aac"),
                  "holds sound but no moving picture");
    const auto pipe = fixtureFolder() / "pipe.mp4";
    ::mkfifo(pipe.c_str(), 0600);
    checkSentence(pipe, "is no ordinary file");
}

TEST_CASE("a play list is refused, whatever it is called", "[clip][bad]")
{
    const auto inner = made("listed.mp4", movingPicture(5) + x264);
    checkSentence(written("hls.mp4", "#EXTM3U\n#EXT-X-TARGETDURATION:1\n#EXTINF:1,\n" +
                                         inner.string() + "\n#EXT-X-ENDLIST\n"),
                  "is not a video that can be read");
    checkSentence(written("concat.mp4", "ffconcat version 1.0\nfile listed.mp4\n"),
                  "is not a video that can be read");
}

TEST_CASE("a recording without its table of frames is told as cut off", "[clip][bad]")
{
    const auto whole = bytesOf(made("whole.mp4", movingPicture(60) + x264 + "-bf 2 -g 12"));
    checkSentence(written("no_moov.mp4", whole.substr(0, whole.size() / 2)),
                  "was cut off before its table of frames was written");
}

TEST_CASE("a clip cut within its pictures is read as far as it goes", "[clip][bad]")
{
    const auto whole = bytesOf(
        made("faststart.mp4", movingPicture(60) + x264 + "-bf 0 -g 12 -movflags +faststart"));
    const auto cut = written("cut.mp4", whole.substr(0, whole.size() * 6 / 10));
    auto reader = ClipReader::open(cut).value();
    const auto frames = reader.facts().frames;
    CHECK(frames > 20);
    CHECK(frames < 50);
    CHECK(hasRemark(reader.facts(),
                    "The clip ends after " + std::to_string(frames) + " of its 60 frames."));
    const auto plain = plainDecode(fixtureFolder() / "faststart.mp4");
    for (const auto n : {frames - 1, std::int64_t{0}, frames / 2}) {
        CHECK(hashOf(reader.frame({n})->picture) == plain[static_cast<std::size_t>(n)].hash);
    }
    checkNeverWrong(cut);

    const auto mkv = bytesOf(made("whole.mkv", "-i @faststart.mp4 -c copy"));
    const auto cutMkv = ClipReader::open(written("cut.mkv", mkv.substr(0, mkv.size() / 2))).value();
    CHECK(hasRemark(cutMkv.facts(), "The clip ends after "));
    CHECK(hasRemark(cutMkv.facts(), " of its 60 frames."));
    CHECK(!hasRemark(ClipReader::open(fixtureFolder() / "whole.mkv")->facts(), "ends after"));
    CHECK(!hasRemark(ClipReader::open(fixtureFolder() / "whole.mp4")->facts(), "ends after"));

    const auto avi = bytesOf(made("whole.avi", movingPicture(60) + "-c:v mjpeg -pix_fmt yuvj420p"));
    const auto cutAvi = ClipReader::open(written("cut.avi", avi.substr(0, avi.size() / 2))).value();
    CHECK(hasRemark(cutAvi.facts(), " of its 60 frames."));
}

TEST_CASE("a file that is shorter than it says is told, though no frame is missed", "[clip][bad]")
{
    // Matroska states a length and no count, so that one frame less would pass; what it says of its
    // own bytes (RFC 9559) does not. MP4 and QuickTime state the length of each box.
    const auto kinds = {std::pair{"mkv", "-i @faststart.mp4 -c copy"},
                        std::pair{"webm", "-f lavfi -i testsrc=s=96x64:r=30:d=1 -c:v libvpx-vp9 "
                                          "-deadline realtime"},
                        std::pair{"avi", "-i @faststart.mp4 -c:v mpeg4"},
                        std::pair{"mp4", "-i @faststart.mp4 -c copy"},
                        std::pair{"mov", "-i @faststart.mp4 -c copy -movflags "
                                         "frag_keyframe+empty_moov"}};
    (void)made("faststart.mp4", movingPicture(60) + x264 + "-bf 0 -g 12 -movflags +faststart");
    for (const auto& [ending, arguments] : kinds) {
        const auto whole = bytesOf(made(std::string("short.") + ending, arguments));
        const auto file =
            written(std::string("short-cut.") + ending, whole.substr(0, whole.size() - 8));
        INFO(file.string());
        const auto tells = [](const std::filesystem::path& clip) {
            const auto facts = ClipReader::open(clip).value().facts();
            return hasRemark(facts, "The file was cut off: ") ||
                   hasRemark(facts, "The clip ends after ") ||
                   hasRemark(facts, "The clip is damaged after ");
        };
        CHECK(tells(file));
        CHECK_FALSE(tells(fixtureFolder() / (std::string("short.") + ending)));
    }
}

TEST_CASE("a clip cut at any place gives a sentence or its frames, and never fails otherwise",
          "[clip][bad]")
{
    for (const auto* name : {"faststart.mp4", "whole.mkv", "whole.avi", "whole.mp4"}) {
        const auto whole = bytesOf(fixtureFolder() / name);
        for (std::size_t parts = 1; parts < 12; ++parts) {
            const auto cut =
                written(std::string("piece_") + name, whole.substr(0, whole.size() * parts / 12));
            auto reader = ClipReader::open(cut);
            INFO(name << " " << parts << "/12");
            if (reader) {
                CHECK(reader->frame({reader->index().size() - 1}).has_value());
            } else {
                CHECK(reader.error().sentence.find(cut.filename().string()) != std::string::npos);
            }
        }
    }
}

TEST_CASE("a damaged picture is a sentence or the same picture in any order, never another one",
          "[clip][bad]")
{
    const std::string hevc = "-pix_fmt yuv420p -c:v libx265 -preset superfast -x265-params "
                             "log-level=none:bframes=3:keyint=15:open-gop=0";
    const std::string openHevc = "-pix_fmt yuv420p -c:v libx265 -preset superfast -x265-params "
                                 "log-level=none:bframes=3:keyint=15:open-gop=1";
    const std::pair<const char*, std::string> clips[] = {
        {"faststart.mp4", ""},
        {"bits_h264.mp4", movingPicture(60) + x264 + "-bf 3 -g 12"},
        {"bits_hevc.mp4", movingPicture(60) + hevc},
        {"bits_open_hevc.mp4", movingPicture(60) + openHevc},
        {"bits_mpeg4.mp4", movingPicture(60) + "-c:v mpeg4 -q:v 4 -bf 2 -g 12"},
        {"bits_mjpeg.mov", movingPicture(30) + "-pix_fmt yuvj420p -c:v mjpeg"},
        {"bits_vp9.webm", movingPicture(30) + "-pix_fmt yuv420p -c:v libvpx-vp9 -cpu-used 5"},
        {"bits_av1.mkv", movingPicture(30) + "-pix_fmt yuv420p -c:v libaom-av1 -cpu-used 8"},
    };
    for (const auto& [name, recipe] : clips) {
        const auto whole = bytesOf(recipe.empty() ? fixtureFolder() / name : made(name, recipe));
        for (const unsigned seed : {1U, 2U, 3U, 4U}) {
            const bool hasTableFirst = std::string(name) == "faststart.mp4";
            checkNeverWrong(
                written(std::string("flipped_") + name,
                        flipped(whole, whole.size() / (hasTableFirst ? 4 : 20) + 700,
                                whole.size() * (hasTableFirst ? 99 : 75) / 100, 6, seed)));
        }
    }
}

TEST_CASE("a clip of no pictures says so", "[clip][bad]")
{
    // The header of a Matroska file without any cluster.
    const auto whole = bytesOf(made("whole.mkv", "-i @faststart.mp4 -c copy"));
    const auto cluster = whole.find("\x1f\x43\xb6\x75");
    REQUIRE(cluster != std::string::npos);
    checkSentence(written("no_pictures.mkv", whole.substr(0, cluster)), "picture");
}

TEST_CASE("a picture of one pixel is a picture", "[clip][bad]")
{
    auto reader =
        ClipReader::open(made("one_pixel.avi", "-f lavfi -i color=red:s=16x16:r=10 -vf "
                                               "format=bgr24,crop=1:1 -frames:v 3 -pix_fmt bgr24 "
                                               "-c:v png"))
            .value();
    CHECK(reader.facts().width == 1);
    const auto picture = reader.frame({2})->picture;
    CHECK(picture.height() == 1);
    CHECK(int{picture.row(0)[2]} > 200);
}

TEST_CASE("a header that claims 16384 x 16384 pixels is refused in a sentence", "[clip][bad]")
{
    // JPEG: the size stands behind the marker FFC0, its length and the precision, height first.
    auto bytes = bytesOf(made("for_huge.avi", movingPicture(3) + "-pix_fmt yuvj420p -c:v mjpeg"));
    int changed = 0;
    for (auto at = bytes.find("\xff\xc0"); at != std::string::npos;
         at = bytes.find("\xff\xc0", at + 2)) {
        bytes.replace(at + 5, 4, std::string("\x40\x00\x40\x00", 4));
        ++changed;
    }
    REQUIRE(changed >= 3);
    checkSentence(written("huge_jpeg.avi", bytes), "huge_jpeg.avi");

    // ISO base media: width and height of the sample entry "avc1", 24 bytes behind its name + 4.
    auto mp4 = bytesOf(
        made("faststart.mp4", movingPicture(60) + x264 + "-bf 0 -g 12 -movflags +faststart"));
    const auto entry = mp4.find("avc1", mp4.find("stsd"));
    REQUIRE(entry != std::string::npos);
    mp4.replace(entry + 28, 4, std::string("\x40\x00\x40\x00", 4));
    const auto file = written("huge_header.mp4", mp4);
    auto reader = ClipReader::open(file);
    // The pictures themselves are small, and so the clip can be read; or else it says why not.
    CHECK((reader ? reader->facts().width == 160
                  : reader.error().sentence.find("huge_header.mp4") != std::string::npos));
}

TEST_CASE("a capture rate that cannot be is refused in a sentence", "[clip][bad]")
{
    const auto file = made("whole.mp4", movingPicture(60) + x264 + "-bf 2 -g 12");
    for (const double rate : {0.0, -240.0, std::nan(""), 1e6, double{INFINITY}}) {
        const auto clip = ClipReader::open(
            file, {.captureRate = rate, .fieldsAsFrames = false, .videoStream = {}});
        INFO(rate);
        REQUIRE(!clip);
        CHECK(clip.error().sentence.find("A capture rate of ") == 0);
        CHECK(clip.error().kind == Error::Kind::Inconsistent);
    }
}

TEST_CASE("a frame number beyond the clip is answered with a sentence", "[clip][bad]")
{
    auto reader =
        ClipReader::open(made("whole.mp4", movingPicture(60) + x264 + "-bf 2 -g 12")).value();
    for (const std::int64_t n : {std::int64_t{-1}, std::int64_t{60}, INT64_MAX, INT64_MIN}) {
        const auto frame = reader.frame({n});
        REQUIRE(!frame);
        CHECK(frame.error().sentence ==
              "The clip has no frame " + std::to_string(n) + "; its frames are 0 to 59.");
    }
}
