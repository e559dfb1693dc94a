// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/catch.hpp"
#include "tests/scratch_folder.hpp"

#include <cstdlib>
#include <filesystem>
#include <string>

namespace latemile::tests {

enum class GreyTexture { None, Noise };

/// A clip by the ffmpeg program, 320 x 240 pixels, 60 frames/s, in which nothing moves: plain grey,
/// or one picture of noise again and again.
inline std::filesystem::path clipOfGreys(const ScratchFolder& folder, int frames,
                                         GreyTexture texture)
{
    const auto file = folder / "greys.mp4";
    const std::string source =
        texture == GreyTexture::None
            ? "color=c=gray:s=320x240:r=60"
            : "color=c=gray:s=320x240:r=60,geq=lum='128+100*sin(X*0.7)*cos(Y*0.5+X*0.13)'";
    const auto command = "ffmpeg -v error -y -f lavfi -i \"" + source + "\" -frames:v " +
                         std::to_string(frames) + " -pix_fmt yuv420p -c:v libx264 -crf 12 '" +
                         file.string() + "'";
    REQUIRE(std::system(command.c_str()) == 0);
    return file;
}

} // namespace latemile::tests
