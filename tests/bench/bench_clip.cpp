// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/bench/bench_clip.hpp"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <string>

namespace latemile {

double quantile(std::vector<double> values, double part)
{
    std::sort(values.begin(), values.end());
    return values[static_cast<std::size_t>(part * static_cast<double>(values.size() - 1))];
}

void stop(const char* sentence)
{
    std::fprintf(stderr, "%s\n", sentence);
    std::exit(1);
}

namespace {

std::filesystem::path clipOf(const std::string& name, const std::string& size)
{
    const auto file = std::filesystem::path(LATEMILE_BINARY_DIR) / name;
    if (std::filesystem::exists(file)) {
        return file;
    }
    const auto half = file.string() + ".half.mp4";
    const std::string command =
        "ffmpeg -nostdin -v error -y -f lavfi -i testsrc2=size=" + size +
        ":rate=240 -vf noise=alls=6:allf=t -frames:v 480 -pix_fmt yuv420p -c:v libx264 -preset "
        "veryfast -bf 2 -g 60 -keyint_min 60 -sc_threshold 0 -crf 26 '" +
        half + "'";
    if (std::system(command.c_str()) != 0) {
        stop("The ffmpeg program cannot make the clip.");
    }
    std::filesystem::rename(half, file);
    return file;
}

} // namespace

std::filesystem::path benchClip()
{
    return clipOf("bench_1080p240.mp4", "1920x1080");
}

std::filesystem::path largeBenchClip()
{
    return clipOf("bench_2160p240.mp4", "3840x2160");
}

} // namespace latemile
