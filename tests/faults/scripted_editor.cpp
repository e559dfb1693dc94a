// SPDX-License-Identifier: GPL-3.0-or-later
// A coach in a hurry, to be killed: edits a session without end and says on standard output, a line
// an edit, which are on disk for good.
//
//   scripted-editor FOLDER                  goes on until it is killed
//   scripted-editor FOLDER --room BYTES     until no file may grow beyond so much (a full disk)
//   scripted-editor FOLDER --turns N SIDE   opens, edits and closes N times, beside others
#include "tests/faults/scripted_editor.hpp"

#include <sys/resource.h>
#include <unistd.h>

#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <string>

using namespace latemile;
using namespace latemile::tests;

namespace {

void say(int number)
{
    const auto line = std::to_string(number) + "\n";
    [[maybe_unused]] const auto written = ::write(STDOUT_FILENO, line.data(), line.size());
}

/// Nothing while another has the session open.
std::optional<SessionFile> openAndRecover(const char* folder, const char* name)
{
    auto file = SessionFile::open(folder, {name, "here"});
    if (!file) {
        std::fprintf(stderr, "%s\n", file.error().sentence.c_str());
        std::exit(3);
    }
    if (!file->isWritable()) {
        return std::nullopt;
    }
    if (file->recovery() && !file->recover()) {
        std::exit(4);
    }
    return std::move(*file);
}

/// Until a write fails.
int work(const char* folder)
{
    auto file = openAndRecover(folder, "editor");
    if (!file) {
        return 5;
    }
    Session now = file->session();
    for (int number = lastEdit(now) + 1;; ++number) {
        edit(now, number);
        if (!file->keep(now)) {
            return 0;
        }
        say(number);
        if (number % 7 == 0 && !file->save(now)) {
            return 0;
        }
    }
}

int takeTurns(const char* folder, int turns, const std::string& side)
{
    const auto which = side == "near" ? BodySide::Near : BodySide::Far;
    for (int turn = 0; turn < turns;) {
        auto file = openAndRecover(folder, side.c_str());
        if (!file) {
            ::usleep(200);
            continue;
        }
        Session now = file->session();
        const int number = lastEdit(now, which) + 1;
        edit(now, number, which);
        // In turn saved whole, and left in the journal for the next one to take over.
        if (!(turn % 2 == 0 ? file->save(now) : file->keep(now))) {
            return 6;
        }
        say(number);
        ++turn;
    }
    return 0;
}

} // namespace

int main(int argc, char* argv[])
{
    const std::string wish = argc > 2 ? argv[2] : "";
    if (wish == "--turns" && argc > 4) {
        return takeTurns(argv[1], std::atoi(argv[3]), argv[4]);
    }
    if (wish == "--room" && argc > 3) {
        std::signal(SIGXFSZ, SIG_IGN);
        const rlim_t room = std::strtoul(argv[3], nullptr, 10);
        const rlimit limit{room, room};
        if (::setrlimit(RLIMIT_FSIZE, &limit) != 0) {
            return 7;
        }
    }
    return argc > 1 ? work(argv[1]) : 2;
}
