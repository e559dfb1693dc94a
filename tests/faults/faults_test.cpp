// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/checksum.hpp"
#include "tests/catch.hpp"
#include "tests/faults/scripted_editor.hpp"
#include "tests/scratch_folder.hpp"

#include <poll.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <csignal>
#include <random>
#include <thread>

using namespace latemile;
using namespace latemile::tests;

namespace {

using Clock = std::chrono::steady_clock;

struct Day : ScratchFolder {
    Day() { REQUIRE(writeSession(emptyDay(), path())); }
};

/// The scripted editor at work; what it says comes out of `said`.
class Editor {
public:
    explicit Editor(std::vector<std::string> arguments)
    {
        std::array<int, 2> ends{};
        REQUIRE(::pipe(ends.data()) == 0);
        m_child = ::fork();
        if (m_child == 0) {
            ::dup2(ends[1], STDOUT_FILENO);
            ::close(ends[0]);
            ::close(ends[1]);
            std::vector<char*> words{const_cast<char*>(LATEMILE_EDITOR)};
            for (auto& argument : arguments) {
                words.push_back(argument.data());
            }
            words.push_back(nullptr);
            ::execv(words[0], words.data());
            ::_exit(127);
        }
        ::close(ends[1]);
        m_said = ends[0];
    }
    Editor(const Editor&) = delete;
    Editor& operator=(const Editor&) = delete;
    ~Editor()
    {
        ::close(m_said);
        if (m_child > 0) {
            ::kill(m_child, SIGKILL);
            ::waitpid(m_child, nullptr, 0);
        }
    }
    void kill() const { ::kill(m_child, SIGKILL); }
    /// Waits until it said something, at most ten seconds.
    void waitForWord() const
    {
        pollfd ready{.fd = m_said, .events = POLLIN, .revents = 0};
        REQUIRE(::poll(&ready, 1, 10'000) == 1);
    }
    /// Every line it said till its end; only whole lines count.
    [[nodiscard]] std::vector<int> said() const
    {
        std::string text;
        std::array<char, 4096> block{};
        for (ssize_t got = 0; (got = ::read(m_said, block.data(), block.size())) > 0;) {
            text.append(block.data(), static_cast<std::size_t>(got));
        }
        std::vector<int> numbers;
        for (std::size_t at = 0, end = 0; (end = text.find('\n', at)) != std::string::npos;
             at = end + 1) {
            numbers.push_back(std::stoi(text.substr(at, end - at)));
        }
        return numbers;
    }
    /// Its exit code; -1 where a signal ended it.
    [[nodiscard]] int waitForEnd()
    {
        int status = 0;
        ::waitpid(m_child, &status, 0);
        m_child = -1;
        return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    }

private:
    pid_t m_child{};
    int m_said{};
};

struct KillFigures {
    int kills{};
    long edits{};     ///< said to be on disk
    int offered{};    ///< reopened with edits to take over
    int lost{};       ///< reopened with less than was said, or with a hole
    int unreadable{}; ///< documents that could not be opened
    double slowest{}; ///< seconds to open and take over
};

/// Lets it go on for a time drawn by chance: two times in three after its first edit, else from its
/// start, so that it is killed while it opens and takes over as well.
void goOn(const Editor& editor, std::mt19937& chance, Clock::duration& toFirstEdit)
{
    const auto started = Clock::now();
    auto most = toFirstEdit;
    if (chance() % 3 != 0) {
        editor.waitForWord();
        toFirstEdit = Clock::now() - started;
        most = std::chrono::milliseconds(20);
    }
    std::this_thread::sleep_for(most * std::uniform_real_distribution<>(0, 1)(chance));
}

/// Kills the editor at a moment drawn by chance, again and again, on one session.
KillFigures killAgainAndAgain(int kills, unsigned seed)
{
    const Day day;
    std::mt19937 chance(seed);
    Clock::duration toFirstEdit = std::chrono::milliseconds(50);
    KillFigures figures;
    int safe = 0;
    for (; figures.kills < kills; ++figures.kills) {
        Editor editor({day.path().string()});
        goOn(editor, chance, toFirstEdit);
        editor.kill();
        const auto said = editor.said();
        (void)editor.waitForEnd();
        figures.edits += static_cast<long>(said.size());
        safe = said.empty() ? safe : said.back();
        const auto started = Clock::now();
        auto file = SessionFile::open(day.path(), {"test", "here"});
        if (!file || !file->isWritable()) {
            ++figures.unreadable;
            continue;
        }
        const bool offered = file->recovery().has_value();
        // Half of the time the next editor takes over, so that it is killed while it does.
        const bool here = figures.kills % 2 == 0;
        const Session session = offered ? file->recovery()->session : file->session();
        if (offered && here) {
            REQUIRE(file->recover());
        }
        const std::chrono::duration<double> took = Clock::now() - started;
        figures.slowest = std::max(figures.slowest, took.count());
        figures.offered += offered ? 1 : 0;
        figures.lost += lastEdit(session) < safe || !isWhole(session) ? 1 : 0;
    }
    // Killing leaves unfinished files of saves, and these alone; nothing was set aside.
    for (const auto& entry : std::filesystem::directory_iterator(day.path())) {
        const auto name = entry.path().filename().string();
        CAPTURE(name);
        CHECK((name == "session.json" || name == "session.previous.json" ||
               name == "session.journal" || name == "session.edits" ||
               name.starts_with(".session.json.") || name.starts_with(".session.edits.")));
    }
    return figures;
}

void check(const KillFigures& figures)
{
    CHECK(figures.lost == 0);
    CHECK(figures.unreadable == 0);
    CHECK(figures.slowest < 1.0);
    CHECK(figures.edits > figures.kills);
    CHECK(figures.offered > figures.kills / 10);
}

} // namespace

TEST_CASE("an editor killed 50 times loses no edit that it was told is saved", "[faults]")
{
    check(killAgainAndAgain(50, 20260829));
}

// By hand: faults_test "[thousand]"
TEST_CASE("an editor killed 1000 times loses no edit that it was told is saved", "[.][thousand]")
{
    const auto figures = killAgainAndAgain(1000, 1);
    WARN(figures.kills << " kills, " << figures.edits << " edits acknowledged, taken over "
                       << figures.offered << " times, lost " << figures.lost << ", unreadable "
                       << figures.unreadable << ", slowest recovery " << figures.slowest << " s");
    check(figures);
}

TEST_CASE("two programs that race for one session lose no edit of either", "[faults]")
{
    const Day day;
    constexpr int turns = 200;
    Editor near({day.path().string(), "--turns", std::to_string(turns), "near"});
    Editor far({day.path().string(), "--turns", std::to_string(turns), "far"});
    CHECK(near.said().size() == turns);
    CHECK(far.said().size() == turns);
    CHECK(near.waitForEnd() == 0);
    CHECK(far.waitForEnd() == 0);
    const auto file = SessionFile::open(day.path(), {"test", "here"}).value();
    const Session session = file.recovery() ? file.recovery()->session : file.session();
    for (const auto side : {BodySide::Near, BodySide::Far}) {
        CHECK(lastEdit(session, side) == turns);
        CHECK(isWhole(session, side));
    }
    CHECK_FALSE(std::filesystem::exists(day / "session.other-1.json"));
}

TEST_CASE("a disk that fills up while editing loses no edit that was told as saved", "[faults]")
{
    // A limit on the size of files ends a write as a full disk does: short, then with an error.
    const int room = GENERATE(64, 300, 1000, 2048, 4096, 10'000, 20'000);
    CAPTURE(room);
    const Day day;
    Editor editor({day.path().string(), "--room", std::to_string(room)});
    const auto said = editor.said();
    CHECK(editor.waitForEnd() == 0);
    CHECK((room > 64) == !said.empty()); // the first record and the header are about 250 bytes
    const auto file = SessionFile::open(day.path(), {"test", "here"}).value();
    const Session session = file.recovery() ? file.recovery()->session : file.session();
    CHECK(lastEdit(session) >= (said.empty() ? 0 : said.back()));
    CHECK(isWhole(session));
    for (const auto& entry : std::filesystem::directory_iterator(day.path())) {
        CAPTURE(entry.path().string());
        CHECK_FALSE(entry.path().filename().string().starts_with('.'));
    }
}
