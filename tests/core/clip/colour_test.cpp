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

using Rgb = std::array<double, 3>;
constexpr int patchSide = 16;

/// Luma weights: ITU-R BT.601 (Kr .299, Kb .114), BT.709 (.2126, .0722), BT.2020 (.2627, .0593),
/// from memory.
struct Weights {
    double red;
    double blue;
};

/// Y, Cb, Cr of a colour 0...1 by those recommendations, as numbers of `bits` bits.
std::array<int, 3> coded(const Rgb& colour, Weights weights, bool isFull, int bits)
{
    const double y = weights.red * colour[0] + (1 - weights.red - weights.blue) * colour[1] +
                     weights.blue * colour[2];
    const double cb = (colour[2] - y) / (2 * (1 - weights.blue));
    const double cr = (colour[0] - y) / (2 * (1 - weights.red));
    const double unit = 1 << (bits - 8);
    const double largest = (1 << bits) - 1;
    const auto luma = isFull ? y * largest : (16 + 219 * y) * unit;
    const auto chroma = [&](double c) {
        return (isFull ? c * largest : 224 * c * unit) + 128 * unit;
    };
    const auto bounded = [&](double value) {
        return static_cast<int>(std::lround(std::min(std::max(value, 0.0), largest)));
    };
    return {bounded(luma), bounded(chroma(cb)), bounded(chroma(cr))};
}

/// Raw 4:2:0 of patches side by side.
std::string rawPatches(const std::vector<std::array<int, 3>>& patches, int height, int bits)
{
    std::string raw;
    const auto put = [&](int value) {
        raw += static_cast<char>(value & 0xff);
        if (bits > 8) {
            raw += static_cast<char>(value >> 8);
        }
    };
    for (std::size_t plane = 0; plane < 3; ++plane) {
        const int side = plane == 0 ? patchSide : patchSide / 2;
        for (int y = 0; y < (plane == 0 ? height : height / 2); ++y) {
            for (const auto& patch : patches) {
                for (int x = 0; x < side; ++x) {
                    put(patch[plane]);
                }
            }
        }
    }
    return raw;
}

Rgb centre(const Picture& picture, std::size_t patch)
{
    const auto* pixel = picture.row(picture.height() / 2) + (patch * patchSide + patchSide / 2) * 4;
    return {double(pixel[2]), double(pixel[1]), double(pixel[0])};
}

Picture encodedAndRead(const std::string& name, const std::string& raw, std::size_t patches,
                       int height, const std::string& format, const std::string& codec)
{
    static_cast<void>(written(name + ".raw", raw));
    const auto file =
        made(name, "-f rawvideo -pix_fmt " + format + " -s " + std::to_string(patches * patchSide) +
                       "x" + std::to_string(height) + " -i @" + name + ".raw -frames:v 1 " + codec);
    return ClipReader::open(file)->frame({0})->picture;
}

const std::vector<Rgb> colours = {{0, 0, 0},     {1, 1, 1},        {0.5, 0.5, 0.5}, {1, 0, 0},
                                  {0, 1, 0},     {0, 0, 1},        {0.8, 0.2, 0.4}, {0.1, 0.6, 0.9},
                                  {0.9, 0.8, 0}, {0.35, 0.35, 0.3}};

const std::string lossless264 = "-c:v libx264 -qp 0 -preset ultrafast ";
const std::string lossless265 =
    "-c:v libx265 -preset ultrafast -x265-params log-level=none:lossless=1 ";

} // namespace

TEST_CASE("known colours come back within three levels, whatever matrix and range",
          "[clip][outside]")
{
    struct Matrix {
        const char* tag;
        Weights weights;
    };
    const auto matrix = GENERATE(values<Matrix>({{"smpte170m", {0.299, 0.114}},
                                                 {"bt709", {0.2126, 0.0722}},
                                                 {"bt2020nc", {0.2627, 0.0593}}}));
    const auto isFull = GENERATE(false, true);
    const auto bits = GENERATE(8, 10);
    std::vector<std::array<int, 3>> patches;
    for (const auto& colour : colours) {
        patches.push_back(coded(colour, matrix.weights, isFull, bits));
    }
    const auto name = std::string("patches_") + matrix.tag + (isFull ? "_full_" : "_limited_") +
                      std::to_string(bits) + ".mkv";
    INFO(name);
    const auto picture = encodedAndRead(name, rawPatches(patches, 32, bits), patches.size(), 32,
                                        bits == 8 ? "yuv420p" : "yuv420p10le",
                                        (bits == 8 ? lossless264 : lossless265) + "-colorspace " +
                                            matrix.tag + " -color_range " + (isFull ? "pc" : "tv"));
    for (std::size_t i = 0; i < colours.size(); ++i) {
        const auto got = centre(picture, i);
        for (std::size_t part = 0; part < 3; ++part) {
            INFO("patch " << i << " part " << part);
            CHECK(got[part] == Approx(colours[i][part] * 255).margin(3));
        }
    }
}

TEST_CASE("a clip that names no matrix is read as BT.709 from 720 lines on, else BT.601",
          "[clip][outside]")
{
    const Rgb colour{0.8, 0.2, 0.4};
    for (const bool isLarge : {false, true}) {
        const auto patch =
            coded(colour, isLarge ? Weights{0.2126, 0.0722} : Weights{0.299, 0.114}, false, 8);
        const std::vector<std::array<int, 3>> row(isLarge ? 80 : 6, patch);
        const int height = isLarge ? 720 : 64;
        const auto picture =
            encodedAndRead(isLarge ? "untagged_large.mkv" : "untagged_small.mkv",
                           rawPatches(row, height, 8), row.size(), height, "yuv420p", lossless264);
        const auto got = centre(picture, 2);
        for (std::size_t part = 0; part < 3; ++part) {
            CHECK(got[part] == Approx(colour[part] * 255).margin(3));
        }
    }
}

TEST_CASE("full-range JPEG pictures keep black and white", "[clip]")
{
    std::vector<std::array<int, 3>> patches;
    for (const auto& colour : colours) {
        patches.push_back(coded(colour, {0.299, 0.114}, true, 8));
    }
    const auto picture = encodedAndRead("patches_jpeg.avi", rawPatches(patches, 32, 8),
                                        patches.size(), 32, "yuvj420p", "-c:v mjpeg -q:v 1");
    CHECK(centre(picture, 0)[1] == Approx(0).margin(3));
    CHECK(centre(picture, 1)[1] == Approx(255).margin(3));
    CHECK(centre(picture, 2)[1] == Approx(127.5).margin(3));
}

namespace {

/// Patches of signal values 0...1 in BT.2020, 10 bits, limited range, tagged as high dynamic range.
Picture hdrPatches(const std::string& name, const std::vector<Rgb>& signals,
                   const std::string& transfer)
{
    std::vector<std::array<int, 3>> patches;
    for (const auto& signal : signals) {
        patches.push_back(coded(signal, {0.2627, 0.0593}, false, 10));
    }
    return encodedAndRead(name, rawPatches(patches, 32, 10), patches.size(), 32, "yuv420p10le",
                          lossless265 +
                              "-colorspace bt2020nc -color_primaries bt2020 -color_range tv "
                              "-color_trc " +
                              transfer);
}

} // namespace

TEST_CASE("grey card and reference white of both HDR systems come out alike", "[clip][outside]")
{
    // ITU-R BT.2408, table 1 (from memory): reference white, 203 cd/m2, is 58 % PQ and 75 % HLG;
    // an 18 % grey card, 26 cd/m2, is 38 % in both.
    const std::vector<Rgb> pqSignals = {{0, 0, 0}, {0.38, 0.38, 0.38}, {0.58, 0.58, 0.58}};
    const std::vector<Rgb> hlgSignals = {{0, 0, 0}, {0.38, 0.38, 0.38}, {0.75, 0.75, 0.75}};
    const auto pq = hdrPatches("hdr_pq.mkv", pqSignals, "smpte2084");
    const auto hlg = hdrPatches("hdr_hlg.mkv", hlgSignals, "arib-std-b67");
    // By hand: 26 / 203 of white is 100 of 255 in sRGB; the curve of BT.2390 from 1000 to
    // 203 cd/m2 brings 203 to 157 cd/m2, which is 228.
    const double expected[] = {0, 100, 228};
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t part = 0; part < 3; ++part) {
            INFO("patch " << i << " part " << part);
            CHECK(centre(pq, i)[part] == Approx(expected[i]).margin(4));
            CHECK(centre(hlg, i)[part] == Approx(expected[i]).margin(4));
        }
    }
    CHECK(ClipReader::open(fixtureFolder() / "hdr_pq.mkv")->facts().highDynamicRange);
    CHECK(ClipReader::open(fixtureFolder() / "hdr_hlg.mkv")->facts().colour ==
          "BT.2020, limited range, high dynamic range (HLG)");
}

TEST_CASE("below the knee of the tone curve HDR colours are those of the zimg library",
          "[clip][outside]")
{
    // All below 90 cd/m2, where tone mapping changes nothing: what is left is PQ to light, BT.2020
    // to BT.709 and light to sRGB, which the ffmpeg program does through libzimg.
    const std::vector<Rgb> signals = {{0.45, 0.40, 0.38}, {0.30, 0.42, 0.35}, {0.25, 0.28, 0.44},
                                      {0.20, 0.20, 0.20}, {0.47, 0.46, 0.30}, {0.10, 0.12, 0.11}};
    const auto picture = hdrPatches("hdr_dim.mkv", signals, "smpte2084");
    const auto raw = outputOf("-i @hdr_dim.mkv -frames:v 1 -vf \"zscale=t=linear:npl=203,"
                              "format=gbrpf32le,zscale=p=bt709,zscale=t=iec61966-2-1:m=gbr:r=full,"
                              "format=gbrp\" -pix_fmt bgra -f rawvideo");
    for (std::size_t i = 0; i < signals.size(); ++i) {
        const auto at = (16 * signals.size() * patchSide + i * patchSide + patchSide / 2) * 4;
        for (std::size_t part = 0; part < 3; ++part) {
            INFO("patch " << i << " part " << part);
            const double theirs = static_cast<unsigned char>(raw.at(at + 2 - part));
            CHECK(centre(picture, i)[part] == Approx(theirs).margin(4));
        }
    }
}
