// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/clip_reader.hpp"

#include "tests/catch.hpp"
#include "tests/core/clip/fixtures.hpp"

#include <array>
#include <cmath>
#include <cstdlib>

using namespace latemile;
using namespace latemile::test;

namespace {

/// A copy of an mp4 whose display matrix (ISO/IEC 14496-12, 8.3.2.2: at the end of "tkhd") has
/// these four corners, as whole numbers.
std::filesystem::path withMatrix(const std::string& name, std::array<int, 4> corners)
{
    const auto plain =
        made("to_be_turned.mp4", movingPicture(4, 96, 64) + "-pix_fmt yuv444p -c:v libx264 -qp 4");
    auto bytes = bytesOf(plain);
    const auto box = bytes.find("tkhd");
    REQUIRE(box != std::string::npos);
    const auto put = [&](std::size_t index, int value) {
        const auto fixed = static_cast<unsigned>(value * 65536);
        for (std::size_t i = 0; i < 4; ++i) {
            bytes[box + 44 + index * 4 + i] = static_cast<char>(fixed >> (24 - 8 * i));
        }
    };
    put(0, corners[0]);
    put(1, corners[1]);
    put(3, corners[2]);
    put(4, corners[3]);
    return written(name, bytes);
}

struct Difference {
    double mean = 0;
    int largest = 0;
};

/// Between a picture of ours and raw B, G, R, A of the same size.
Difference difference(const Picture& ours, const std::string& raw)
{
    const auto pixels =
        static_cast<std::size_t>(ours.width()) * static_cast<std::size_t>(ours.height());
    REQUIRE(raw.size() == pixels * 4);
    Difference found;
    std::size_t at = 0;
    for (int y = 0; y < ours.height(); ++y) {
        for (int x = 0; x < ours.width(); ++x, at += 4) {
            for (std::size_t i = 0; i < 3; ++i) {
                const int theirs = static_cast<unsigned char>(raw[at + i]);
                const int off = std::abs(ours.row(y)[static_cast<std::size_t>(x) * 4 + i] - theirs);
                found.largest = std::max(found.largest, off);
                found.mean += off / 3.0 / static_cast<double>(pixels);
            }
        }
    }
    return found;
}

} // namespace

TEST_CASE("every quarter turn, mirrored or not, is brought upright as the ffmpeg program does it",
          "[clip][outside]")
{
    struct Row {
        const char* name;
        std::array<int, 4> corners;
        int degrees;
        bool mirrored;
    };
    const auto row = GENERATE(values<Row>({
        {"turned_0.mp4", {1, 0, 0, 1}, 0, false},
        {"turned_90.mp4", {0, 1, -1, 0}, 90, false},
        {"turned_180.mp4", {-1, 0, 0, -1}, 180, false},
        {"turned_270.mp4", {0, -1, 1, 0}, 270, false},
        {"mirrored_0.mp4", {-1, 0, 0, 1}, 0, true},
        {"mirrored_90.mp4", {0, -1, -1, 0}, 90, true},
        {"mirrored_180.mp4", {1, 0, 0, -1}, 180, true},
        {"mirrored_270.mp4", {0, 1, 1, 0}, 270, true},
    }));
    INFO(row.name);
    auto reader = ClipReader::open(withMatrix(row.name, row.corners)).value();
    CHECK(reader.facts().rotationDegrees == row.degrees);
    CHECK(reader.facts().mirrored == row.mirrored);
    CHECK(reader.facts().width == (row.degrees % 180 == 0 ? 96 : 64));
    CHECK(reader.facts().storedWidth == 96);
    const auto picture = reader.frame({2})->picture;
    // The program turns the picture itself; both then convert the same numbers.
    const auto raw = outputOf(std::string("-i @") + row.name +
                              " -vf \"select=eq(n\\,2)\" -frames:v 1 -sws_flags "
                              "bicubic+accurate_rnd+full_chroma_int -pix_fmt bgra -f rawvideo");
    const auto off = difference(picture, raw);
    CHECK(off.mean < 0.5);
    CHECK(off.largest <= 3);
}

TEST_CASE("pixels that are not square are stretched the shorter way", "[clip][outside]")
{
    struct Row {
        const char* name;
        const char* aspect;
        int width;
        int height;
    };
    const auto row = GENERATE(values<Row>({
        {"wide_pixels.mp4", "2/1", 192, 64},
        {"tall_pixels.mp4", "1/2", 96, 128},
        {"pal_pixels.mkv", "16/11", 140, 64}, // 96 * 16 / 11 = 139.6
    }));
    const auto file = made(row.name, movingPicture(3, 96, 64) + "-vf setsar=" + row.aspect +
                                         " -pix_fmt yuv444p -c:v libx264 -qp 4");
    auto reader = ClipReader::open(file).value();
    CHECK(reader.facts().width == row.width);
    CHECK(reader.facts().height == row.height);
    CHECK(reader.facts().storedWidth == 96);
    const auto raw = outputOf(
        std::string("-i @") + row.name + " -frames:v 1 -vf scale=" + std::to_string(row.width) +
        ":" + std::to_string(row.height) +
        ":flags=bicubic+accurate_rnd+full_chroma_int -pix_fmt bgra -f rawvideo");
    const auto off = difference(reader.frame({0})->picture, raw);
    CHECK(off.mean < 1);
}

TEST_CASE("a whole picture has the colours that the ffmpeg program gives it", "[clip][outside]")
{
    const auto name = GENERATE(values<std::string>({"bt601", "bt709"}));
    const auto clip = "whole_" + name + ".mp4";
    const auto tag = name == "bt601" ? std::string("smpte170m") : name;
    const auto file = made(clip, movingPicture(2, 320, 240) + "-vf scale=out_color_matrix=" + name +
                                     ":out_range=tv -pix_fmt yuv420p -colorspace " + tag +
                                     " -color_range tv -c:v libx264 -qp 4");
    const auto raw = outputOf("-i @" + clip + " -frames:v 1 -vf scale=in_color_matrix=" + name +
                              ":in_range=tv "
                              "-pix_fmt bgra -f rawvideo");
    CHECK(difference(ClipReader::open(file)->frame({0})->picture, raw).mean < 0.5);
}
