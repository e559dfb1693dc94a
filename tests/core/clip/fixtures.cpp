// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/clip/fixtures.hpp"

#include "tests/catch.hpp"
#include "tests/project_folders.hpp"

#include <array>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <functional>
#include <iterator>

#include <unistd.h>

namespace latemile::test {

namespace {

namespace fs = std::filesystem;

std::string replacedNames(std::string arguments)
{
    for (auto at = arguments.find('@'); at != std::string::npos; at = arguments.find('@', at)) {
        arguments.replace(at, 1, fixtureFolder().string() + "/");
    }
    return arguments;
}

} // namespace

fs::path fixtureFolder()
{
    const fs::path folder = tests::binaryFolder() / "clip_fixtures";
    fs::create_directories(folder);
    return folder;
}

fs::path made(const std::string& name, const std::string& arguments)
{
    const auto file = fixtureFolder() / name;
    // A recipe that changed makes its clip anew.
    const auto recipe = fixtureFolder() / (name + ".recipe");
    if (fs::exists(file) && fs::exists(recipe) && bytesOf(recipe) == arguments) {
        return file;
    }
    const auto half = fixtureFolder() / ("half." + std::to_string(::getpid()) + "." + name);
    const auto log = half.string() + ".log";
    const auto command = "ffmpeg -nostdin -v error -y " + replacedNames(arguments) + " '" +
                         half.string() + "' > '" + log + "' 2>&1";
    const int code = std::system(command.c_str());
    INFO(command);
    INFO(bytesOf(log));
    REQUIRE(code == 0);
    fs::remove(log);
    fs::rename(half, file);
    std::ofstream(recipe) << arguments;
    return file;
}

std::string movingPicture(int frames, int width, int height, int rate)
{
    return "-f lavfi -i testsrc2=size=" + std::to_string(width) + "x" + std::to_string(height) +
           ":rate=" + std::to_string(rate) + " -frames:v " + std::to_string(frames) + " ";
}

std::vector<fs::path> everyCodecAndContainer()
{
    const std::string source = movingPicture(50);
    struct Codec {
        const char* name;
        const char* arguments;
        std::vector<const char*> containers;
    };
    const Codec codecs[] = {
        {"h264",
         "-pix_fmt yuv420p -c:v libx264 -preset fast -bf 3 -g 15",
         {"mp4", "mov", "mkv", "avi"}},
        {"h264_all_forward",
         "-pix_fmt yuv420p -c:v libx264 -preset fast -bf 0 -g 20",
         {"mp4", "avi"}},
        {"hevc",
         "-pix_fmt yuv420p -c:v libx265 -preset superfast -tag:v hvc1 -x265-params "
         "log-level=none:bframes=3:keyint=15:open-gop=0",
         {"mp4", "mov", "mkv"}},
        {"hevc10",
         "-pix_fmt yuv420p10le -c:v libx265 -preset superfast -tag:v hvc1 -x265-params "
         "log-level=none:bframes=3:keyint=15:open-gop=0",
         {"mp4", "mov", "mkv"}},
        {"mpeg4", "-c:v mpeg4 -q:v 4 -bf 2 -g 12", {"mp4", "mov", "mkv", "avi"}},
        {"mpeg4_forward", "-c:v mpeg4 -q:v 4 -bf 0 -g 12", {"avi"}},
        {"mpeg4_packed", "-c:v libxvid -q:v 4 -bf 2 -g 12", {"avi"}},
        {"mjpeg", "-pix_fmt yuvj420p -c:v mjpeg -q:v 4", {"mp4", "mov", "mkv", "avi"}},
        {"vp9",
         "-pix_fmt yuv420p -c:v libvpx-vp9 -b:v 200k -deadline good -cpu-used 5 "
         "-lag-in-frames 16 -auto-alt-ref 1 -g 20",
         {"webm", "mkv", "mp4"}},
        {"vp8",
         "-pix_fmt yuv420p -c:v libvpx -b:v 200k -deadline good -cpu-used 5 "
         "-lag-in-frames 16 -auto-alt-ref 1 -g 20",
         {"webm"}},
        {"av1",
         "-pix_fmt yuv420p -c:v libaom-av1 -b:v 200k -cpu-used 8 -lag-in-frames 19 -g 20",
         {"webm", "mkv", "mp4"}},
    };
    std::vector<fs::path> files;
    for (const auto& codec : codecs) {
        for (const auto* container : codec.containers) {
            files.push_back(
                made(std::string(codec.name) + "." + container, source + codec.arguments));
        }
    }
    return files;
}

std::string bytesOf(const fs::path& file)
{
    std::ifstream stream(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(stream), {}};
}

fs::path written(const std::string& name, const std::string& bytes)
{
    const auto file = fixtureFolder() / name;
    std::ofstream stream(file, std::ios::binary | std::ios::trunc);
    stream.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    stream.close();
    REQUIRE(stream.good());
    return file;
}

std::string outputOf(const std::string& arguments)
{
    const auto command = "ffmpeg -nostdin -v error " + replacedNames(arguments) + " -";
    INFO(command);
    FILE* pipe = ::popen(command.c_str(), "r");
    REQUIRE(pipe != nullptr);
    std::string output;
    std::array<char, 65536> buffer{};
    for (std::size_t count = 0; (count = std::fread(buffer.data(), 1, buffer.size(), pipe)) > 0;) {
        output.append(buffer.data(), count);
    }
    REQUIRE(::pclose(pipe) == 0);
    return output;
}

} // namespace latemile::test
