// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/render_clip.hpp"
#include "tests/catch.hpp"
#include "tests/project_folders.hpp"
#include "tests/sample_clips/clip_facts.hpp"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <numeric>

using namespace latemile::maker;
using latemile::test::decodeAll;

namespace {
/// A file of its own for each case, removed when the case ends.
class Scratch {
public:
    explicit Scratch(const std::string& name)
        : m_file(latemile::tests::binaryFolder() / ("maker_clip_test_" + name))
    {
    }
    ~Scratch() { std::filesystem::remove(m_file); }
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;
    [[nodiscard]] const std::filesystem::path& file() const { return m_file; }

private:
    std::filesystem::path m_file;
};

ClipRecipe smallRecipe()
{
    return {.runner = {.seed = 7},
            .camera = {.width = 320, .height = 180},
            .video = {.captureRate = 60.0, .duration = 0.4, .keyInterval = 10}};
}

std::string bytesOf(const std::filesystem::path& file)
{
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

double meanOf(const std::vector<std::uint8_t>& luma)
{
    return std::accumulate(luma.begin(), luma.end(), 0.0) / static_cast<double>(luma.size());
}
} // namespace

TEST_CASE("each codec's clip holds the frames stated, at the times stated", "[maker][outside]")
{
    // Read back by libav alone.
    struct Row {
        Codec codec;
        const char* name;
        const char* libav;
    };
    const auto row =
        GENERATE(Row{Codec::H264, "a.mp4", "h264"}, Row{Codec::H264, "a.mkv", "h264"},
                 Row{Codec::H264, "b.avi", "h264"}, Row{Codec::Hevc, "a.mov", "hevc"},
                 Row{Codec::Mpeg4, "b.mp4", "mpeg4"}, Row{Codec::Mjpeg, "a.avi", "mjpeg"},
                 Row{Codec::Vp9, "a.webm", "vp9"}, Row{Codec::Av1, "b.mkv", "av1"});
    INFO(row.name);
    const Scratch scratch(row.name);
    auto recipe = smallRecipe();
    recipe.video.codec = row.codec;
    const auto truth = renderClip(recipe, scratch.file());
    REQUIRE(truth);
    const auto clip = decodeAll(scratch.file());
    CHECK(clip.codec == row.libav);
    CHECK(clip.width == 320);
    CHECK(clip.height == 180);
    REQUIRE(clip.times.size() == 24);
    REQUIRE(truth->frames.size() == 24);
    for (std::size_t i = 0; i < 24; ++i) {
        CHECK(clip.times[i] - clip.times[0] == Approx(truth->frames[i].seconds).margin(1e-5));
    }
}

TEST_CASE("the same recipe gives the same file, to the byte", "[maker]")
{
    const Scratch one("one.mp4");
    const Scratch two("two.mp4");
    REQUIRE(renderClip(smallRecipe(), one.file()));
    REQUIRE(renderClip(smallRecipe(), two.file()));
    const bool same = bytesOf(one.file()) == bytesOf(two.file()); // too long to print
    CHECK(same);
    CHECK(bytesOf(one.file()).size() > 1000);
}

TEST_CASE("slow motion plays slower than the truth's real time, by the factor stated",
          "[maker][outside]")
{
    const Scratch scratch("slow.mp4");
    auto recipe = smallRecipe();
    recipe.video.captureRate = 240.0;
    recipe.video.containerRate = 30.0;
    recipe.video.captureRateTag = true;
    recipe.video.duration = 0.1;
    const auto truth = renderClip(recipe, scratch.file());
    REQUIRE(truth);
    const auto clip = decodeAll(scratch.file());
    REQUIRE(clip.times.size() == 24);
    for (std::size_t i = 0; i < clip.times.size(); ++i) {
        const auto k = static_cast<double>(i);
        CHECK(truth->frames[i].seconds == Approx(k / 240.0).margin(1e-9));
        CHECK(clip.times[i] == Approx(k / 30.0).margin(1e-5));
    }
    CHECK(std::atof(clip.captureTag.c_str()) == Approx(240.0));
}

TEST_CASE("uneven frame times are those of the truth", "[maker][outside]")
{
    const Scratch scratch("uneven.mp4");
    auto recipe = smallRecipe();
    recipe.video.variableRate = true;
    recipe.video.duration = 1.5;
    recipe.camera = {.width = 160, .height = 90};
    const auto truth = renderClip(recipe, scratch.file());
    REQUIRE(truth);
    const auto clip = decodeAll(scratch.file());
    REQUIRE(clip.times.size() == truth->frames.size());
    CHECK(clip.times.size() < 90);
    double least = 1.0;
    double most = 0.0;
    for (std::size_t i = 0; i < clip.times.size(); ++i) {
        CHECK(clip.times[i] == Approx(truth->frames[i].seconds).margin(1e-6));
        if (i > 0) {
            least = std::min(least, clip.times[i] - clip.times[i - 1]);
            most = std::max(most, clip.times[i] - clip.times[i - 1]);
        }
    }
    CHECK(least > 0.5 / 60.0);
    CHECK(least < 0.95 / 60.0);
    CHECK(most > 1.7 / 60.0);
}

TEST_CASE("wrist and ankle are drawn where the truth says that they are", "[maker]")
{
    // The median over a stride shows the room without the runner; where a limb is, the picture
    // differs from it. Not always by much, so six in ten of the places must.
    const Scratch scratch("drawn.avi");
    auto recipe = smallRecipe();
    recipe.picture.noise = 0.0;
    recipe.video.codec = Codec::Mjpeg;
    recipe.video.duration = 0.75;
    const auto truth = renderClip(recipe, scratch.file());
    REQUIRE(truth);
    const auto clip = decodeAll(scratch.file());
    std::vector<double> still(clip.luma[0].size(), 0.0);
    for (std::size_t p = 0; p < still.size(); ++p) {
        std::vector<std::uint8_t> over;
        for (const auto& luma : clip.luma) {
            over.push_back(luma[p]);
        }
        std::nth_element(over.begin(), over.begin() + static_cast<std::ptrdiff_t>(over.size() / 2),
                         over.end());
        still[p] = over[over.size() / 2];
    }
    int shown = 0;
    int asked = 0;
    for (std::size_t i = 0; i < clip.luma.size(); ++i) {
        const auto& frame = truth->frames[i];
        for (const std::size_t landmark : {std::size_t{3}, std::size_t{6}}) { // wrist and ankle
            const auto p = frame.left[landmark];
            const auto at = static_cast<std::size_t>(p.v) * 320 + static_cast<std::size_t>(p.u);
            ++asked;
            shown += std::abs(clip.luma[i][at] - still[at]) > 12.0 ? 1 : 0;
        }
    }
    CHECK(shown > asked * 6 / 10);
}

TEST_CASE("light that changes, changes the picture by as much as stated", "[maker]")
{
    const Scratch scratch("light.mp4");
    auto recipe = smallRecipe();
    recipe.picture.lightingChange = 0.4;
    const auto truth = renderClip(recipe, scratch.file());
    REQUIRE(truth);
    const auto clip = decodeAll(scratch.file());
    const double start = meanOf(clip.luma.front()) - 16.0; // black is 16
    const double middle = meanOf(clip.luma[12]) - 16.0;
    CHECK(middle / start == Approx(0.6).margin(0.03));
}

TEST_CASE("a clip that cannot be written leaves no file and says why", "[maker]")
{
    SECTION("no such folder")
    {
        const auto truth = renderClip(smallRecipe(), "/nowhere/at/all/clip.mp4");
        REQUIRE_FALSE(truth);
        CHECK(truth.error().sentence.find("clip.mp4") != std::string::npos);
    }
    SECTION("no such container")
    {
        CHECK_FALSE(renderClip(smallRecipe(), "clip.nonsense"));
    }
    SECTION("uneven times in a container that cannot hold them")
    {
        const Scratch scratch("uneven.avi");
        auto recipe = smallRecipe();
        recipe.video.variableRate = true;
        recipe.video.codec = Codec::Mjpeg;
        const auto truth = renderClip(recipe, scratch.file());
        REQUIRE_FALSE(truth);
        CHECK_FALSE(std::filesystem::exists(scratch.file()));
    }
    SECTION("a picture of odd width")
    {
        auto recipe = smallRecipe();
        recipe.camera.width = 321;
        CHECK_FALSE(renderClip(recipe, "odd.mp4"));
        CHECK_FALSE(std::filesystem::exists("odd.mp4"));
    }
}
