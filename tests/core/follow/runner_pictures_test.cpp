// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/runner_pictures.hpp"

#include "tests/catch.hpp"
#include "tests/scratch_folder.hpp"

#include <cstdlib>
#include <string>

using namespace latemile;
using namespace latemile::tests;

TEST_CASE("where the light falls by half, dark and bright pixels come back alike", "[follow]")
{
    // Luma of black is 16 (ITU-R BT.601, limited range): half the light halves what is above it, so
    // that a factor taken from the mean alone left black 12 levels too bright and white too dark.
    const ScratchFolder folder;
    const auto file = folder / "falling.mp4";
    const std::string luma = "16+(20+160*gt(sin(X*0.1)*sin(Y*0.1),0))*(1-N/38)";
    const auto command = "ffmpeg -v error -y -f lavfi -i \"color=c=gray:s=320x240:r=60,geq=lum='" +
                         luma +
                         "':cb=128:cr=128\" -frames:v 20 -pix_fmt yuv420p -c:v libx264 "
                         "-crf 4 '" +
                         file.string() + "'";
    REQUIRE(std::system(command.c_str()) == 0);
    auto clip = ClipReader::open(file).value();
    const auto pictures =
        RunnerPictures::read(clip, {{0}, {19}, {0.0, 0.0}, {320.0, 240.0}, 3.0}).value();
    const double off = cv::norm(pictures.picture({0}), pictures.picture({19}), cv::NORM_L1) /
                       static_cast<double>(pictures.picture({0}).total());
    CHECK(off < 2.0);
}
