// SPDX-License-Identifier: GPL-3.0-or-later
// A pattern that a formula moves by two pixels a frame: where each point goes is known without any
// code of ours.
#include "core/follow/point_flow.hpp"

#include "tests/catch.hpp"
#include "tests/scratch_folder.hpp"

#include <cstdlib>
#include <filesystem>
#include <string>

using namespace latemile;
using namespace latemile::tests;

namespace {

constexpr float pixelsAFrame = 2.0F;

/// By the ffmpeg program: the pattern above row 160, plain grey below.
std::filesystem::path movingPattern(const ScratchFolder& folder)
{
    const auto file = folder / "moving.mp4";
    const std::string pattern =
        "if(lt(Y,160),128+28*(sin((X-2*N)*0.07)+sin((X-2*N)*0.11+Y*0.05)+sin(Y*0.09-(X-2*N)*0.03)"
        "+sin(Y*0.17+(X-2*N)*0.17)),128)";
    const auto command = "ffmpeg -v error -y -f lavfi -i \"color=c=gray:s=480x240:r=60,geq=lum='" +
                         pattern +
                         "':cb=128:cr=128\" -frames:v 40 -pix_fmt yuv420p -c:v libx264 "
                         "-crf 10 '" +
                         file.string() + "'";
    REQUIRE(std::system(command.c_str()) == 0);
    return file;
}

RunnerPictures picturesOf(const std::filesystem::path& file)
{
    auto clip = ClipReader::open(file).value();
    return RunnerPictures::read(clip, {{0}, {39}, {0.0, 0.0}, {480.0, 240.0}, 3.0}).value();
}

const std::vector<cv::Point2f> onPattern{{150, 60}, {170, 80}, {190, 100}, {205, 75}, {160, 110}};

std::vector<cv::Point2f> shifted(std::vector<cv::Point2f> points, float by)
{
    for (auto& point : points) {
        point.x += by;
    }
    return points;
}

} // namespace

TEST_CASE("points are found where the pattern went, from one frame to many", "[follow]")
{
    const ScratchFolder folder;
    const auto pictures = picturesOf(movingPattern(folder));
    const auto search = GENERATE(Search::Narrow, Search::Wide);
    PointFlow flow(pictures, {0}, search);
    // The later frames lie beyond the part that the first asking made ready.
    for (const std::int64_t to : {1, 3, 5, 20, 39, 2}) {
        const float went = pixelsAFrame * static_cast<float>(to);
        const auto found = flow.found(onPattern, shifted(onPattern, went - 2.0F), {to});
        for (std::size_t i = 0; i < onPattern.size(); ++i) {
            CAPTURE(to, i);
            CHECK(found.cameBack[i]);
            CHECK(found.at[i].x == Approx(onPattern[i].x + went).margin(0.2));
            CHECK(found.at[i].y == Approx(onPattern[i].y).margin(0.2));
        }
    }
}

TEST_CASE("where nothing is to be seen no point comes back", "[follow]")
{
    const ScratchFolder folder;
    const auto pictures = picturesOf(movingPattern(folder));
    PointFlow flow(pictures, {0}, Search::Narrow);
    const std::vector<cv::Point2f> onGrey{{200, 205}, {240, 210}};
    for (const bool cameBack : flow.found(onGrey, onGrey, {3}).cameBack) {
        CHECK_FALSE(cameBack);
    }
}
