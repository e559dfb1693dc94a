// SPDX-License-Identifier: GPL-3.0-or-later
// How long a library takes to be listed and a large session to be opened.
//   bench_library        a session of 10,000 marks; 2,000 athletes with 12 sessions each, in a
//                        folder of its own
//   bench_library CLIP   opening one clip: a long recording
#include "core/clip/clip_reader.hpp"
#include "core/store/session.hpp"
#include "tests/scratch_folder.hpp"
#include "ui/athletes/library.hpp"

#include <chrono>
#include <cstdio>

namespace {

using namespace latemile;
using Clock = std::chrono::steady_clock;

double milliseconds(Clock::time_point since)
{
    return std::chrono::duration<double, std::milli>(Clock::now() - since).count();
}

Session daySession(const std::string& date, int marks)
{
    Session session;
    session.date = date;
    for (const char* condition : {"fresh", "fatigued"}) {
        SessionClip clip;
        clip.file = std::string("clips/") + condition + ".mp4";
        clip.condition = condition;
        for (int i = 0; i < marks / 2; ++i) {
            clip.marking.marks[{
                {i / 9}, BodySide::Near, sideViewLandmarks[static_cast<std::size_t>(i % 9)]}] = {
                {600.0 + i / 7.0, 310.0 - i / 3.0}, Origin::Placed, std::nullopt};
        }
        session.clips.push_back(clip);
    }
    return session;
}

void openLargeSession()
{
    const tests::ScratchFolder folder;
    if (!writeSession(daySession("2026-08-29", 10'000), folder.path())) {
        return;
    }
    const auto before = Clock::now();
    const auto session = readSession(folder.path());
    std::printf("a session of 10,000 marks is read in %.0f ms (%s)\n", milliseconds(before),
                session ? "whole" : "refused");
}

/// What one is written as, to be copied: two thousand times twelve real saves would take long.
std::string textOf(const Session& session)
{
    const tests::ScratchFolder folder;
    return writeSession(session, folder.path()) ? tests::bytesOf(folder / "session.json")
                                                : std::string();
}

void listLibrary(int athletes, int days)
{
    const tests::ScratchFolder library;
    for (int day = 0; day < days; ++day) {
        const auto date =
            "2026-" + std::string(day < 9 ? "0" : "") + std::to_string(day + 1) + "-01";
        const auto text = textOf(daySession(date, 120));
        for (int i = 0; i < athletes; ++i) {
            const auto code = "A-" + std::to_string(i);
            (void)library.file(code + "/" + date + "/session.json", text);
            (void)library.file(code + "/athlete.json", R"({"version":1,"code":")" + code +
                                                           R"(","name":"Runner )" +
                                                           std::to_string(i) + "\"}");
        }
    }
    for (const char* state : {"first", "warm"}) {
        const auto before = Clock::now();
        const auto found = ui::athletesOf(library.path());
        std::printf("%zu athletes with %d sessions each are listed in %.0f ms (%s)\n", found.size(),
                    days, milliseconds(before), state);
    }
}

void openClip(const char* file)
{
    const auto before = Clock::now();
    auto clip = ClipReader::open(file);
    const auto opened = milliseconds(before);
    const bool first = clip && clip->frame({0});
    std::printf("%s: %lld frames, opened in %.0f ms, first frame after %.0f ms (%s)\n", file,
                clip ? static_cast<long long>(clip->index().size()) : 0LL, opened,
                milliseconds(before), first ? "shown" : "refused");
}

} // namespace

int main(int argc, char** argv)
{
    if (argc > 1) {
        openClip(argv[1]);
        return 0;
    }
    openLargeSession();
    listLibrary(2000, 12);
    return 0;
}
