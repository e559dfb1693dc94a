// SPDX-License-Identifier: GPL-3.0-or-later
// Clips damaged in every way a dice can think of: each is read as far as it goes or refused in one
// sentence, in time.
#include "core/clip/clip_reader.hpp"
#include "tests/catch.hpp"
#include "tests/core/clip/fixtures.hpp"
#include "tests/fuzz/in_child.hpp"
#include "tests/fuzz/mutation.hpp"
#include "tests/fuzz/targets.hpp"
#include "tests/scratch_folder.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iostream>

using namespace latemile;
using namespace latemile::fuzz;

namespace {

constexpr int framesOfSound = 12;

struct Sound {
    std::string name;
    std::string bytes;
};

/// Six codecs in six kinds of file: MP4, fragmented MP4, MOV, Matroska, WebM, AVI.
std::vector<Sound> soundClips()
{
    const auto picture = test::movingPicture(framesOfSound, 96, 64);
    const std::vector<std::pair<std::string, std::string>> kinds{
        {"fuzz-h264.mp4", " -pix_fmt yuv420p -c:v libx264 -preset fast -bf 2"},
        {"fuzz-fragments.mp4", " -pix_fmt yuv420p -c:v libx264 -preset fast -movflags "
                               "frag_keyframe+empty_moov"},
        {"fuzz-hevc.mov", " -pix_fmt yuv420p -c:v libx265 -x265-params log-level=error"},
        {"fuzz-av1.mkv", " -pix_fmt yuv420p -c:v libaom-av1 -cpu-used 8 -row-mt 0"},
        {"fuzz-vp9.webm", " -pix_fmt yuv420p -c:v libvpx-vp9 -deadline realtime -cpu-used 8"},
        {"fuzz-mpeg4.avi", " -c:v mpeg4 -q:v 4"},
        {"fuzz-mjpeg.mov", " -c:v mjpeg -q:v 4 -pix_fmt yuvj420p"},
    };
    std::vector<Sound> clips;
    for (const auto& [name, arguments] : kinds) {
        clips.push_back({name, test::bytesOf(test::made(name, picture + arguments))});
    }
    return clips;
}

int failures(const std::vector<Sound>& clips, int trialsEach, unsigned seed)
{
    constexpr int together = 50;
    const auto& target = targetNamed("clip");
    int count = 0;
    for (const auto& clip : clips) {
        for (int next = 0; next < trialsEach;) {
            const int to = std::min(trialsEach, next + together);
            const auto ended = endedIn(next, to, [&](int trial) {
                std::mt19937 dice(seed + static_cast<unsigned>(trial));
                target.read(mutated(clip.bytes, dice));
            });
            next = ended ? ended->trial + 1 : to;
            if (ended) {
                std::cerr << clip.name << ": trial " << ended->trial << " of seed " << seed
                          << " ended by signal " << ended->signal << "\n";
                ++count;
            }
        }
    }
    return count;
}

/// How a clip without its end was told from a whole one.
struct Cuts {
    int cuts{};
    int refused{};   ///< it is not opened
    int remarked{};  ///< the facts say so
    int frameless{}; ///< only by a frame that cannot be had
    int allFrames{}; ///< every picture is there: cut between the last one and a table
    int taken{};     ///< for whole
    Cuts& operator+=(const Cuts& other)
    {
        cuts += other.cuts;
        refused += other.refused;
        remarked += other.remarked;
        frameless += other.frameless;
        allFrames += other.allFrames;
        taken += other.taken;
        return *this;
    }
};

bool tellsOfAnEnd(const std::string& remark)
{
    return remark.find("ends after") != std::string::npos ||
           remark.find("damaged after") != std::string::npos ||
           remark.find("was cut off") != std::string::npos;
}

/// Which of the counts a file belongs to.
int Cuts::*kindOf(const std::filesystem::path& file)
{
    auto clip = ClipReader::open(file);
    if (!clip) {
        return &Cuts::refused;
    }
    if (std::ranges::any_of(clip->facts().remarks, tellsOfAnEnd)) {
        return &Cuts::remarked;
    }
    for (std::int64_t n = 0; n < clip->index().size(); ++n) {
        if (!clip->frame({n})) {
            return &Cuts::frameless;
        }
    }
    return clip->index().size() == framesOfSound ? &Cuts::allFrames : &Cuts::taken;
}

Cuts cutsOf(const Sound& clip, int count, std::mt19937& dice)
{
    const tests::ScratchFolder folder;
    Cuts cuts;
    for (; cuts.cuts < count; ++cuts.cuts) {
        const auto bytes = truncated(clip.bytes, dice);
        const auto file = folder.file("cut" + clip.name.substr(clip.name.find('.')), bytes);
        const auto kind = kindOf(file);
        ++(cuts.*kind);
        if (kind == &Cuts::taken || kind == &Cuts::frameless) {
            std::cerr << clip.name << " cut at " << bytes.size() << " of " << clip.bytes.size()
                      << (kind == &Cuts::taken ? " is taken for whole\n"
                                               : " is told by a missing frame alone\n");
        }
    }
    return cuts;
}

Cuts allCuts(int each, unsigned seed)
{
    std::mt19937 dice(seed);
    Cuts all;
    for (const auto& clip : soundClips()) {
        all += cutsOf(clip, each, dice);
    }
    return all;
}

} // namespace

// With the cuts below two thousand clips; twenty thousand and more by the hidden tests.
TEST_CASE("damaged clips are read or refused in time, none ends the program", "[fuzz][refusals]")
{
    CHECK(failures(soundClips(), 240, 1) == 0);
}

TEST_CASE("three thousand damaged clips of each kind", "[.][long]")
{
    CHECK(failures(soundClips(), 3000, 2) == 0);
}

TEST_CASE("a clip whose end is missing is recognised, wherever it was cut", "[fuzz][refusals]")
{
    const auto cuts = allCuts(50, 7);
    CHECK(cuts.cuts == 350);
    CHECK(cuts.taken == 0);
    CHECK(cuts.frameless == 0);
    CHECK(cuts.allFrames <= 1);
}

TEST_CASE("five hundred clips of each kind without their end", "[.][long]")
{
    const auto cuts = allCuts(500, 8);
    WARN(cuts.cuts << " cuts: refused " << cuts.refused << ", remarked " << cuts.remarked
                   << ", told by a missing frame alone " << cuts.frameless
                   << ", with every picture " << cuts.allFrames << ", taken for whole "
                   << cuts.taken);
    CHECK(cuts.taken == 0);
    CHECK(cuts.frameless == 0);
    CHECK(cuts.allFrames <= 1);
}

TEST_CASE("sound clips as seeds for libFuzzer", "[.][seeds]")
{
    const auto folder = seedFolder() / "clip";
    std::filesystem::create_directories(folder);
    for (const auto& clip : soundClips()) {
        std::ofstream(folder / clip.name, std::ios::binary) << clip.bytes;
    }
}
