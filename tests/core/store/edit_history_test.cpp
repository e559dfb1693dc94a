// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/edit_history.hpp"

#include "core/store/session_file.hpp"
#include "tests/catch.hpp"
#include "tests/core/store/edited_session.hpp"
#include "tests/scratch_folder.hpp"

#include <set>

using namespace latemile;
using namespace latemile::tests;

namespace {

const std::string base(64, 'a');

/// Three toes placed one after another, the third taken back: the document holds two.
struct ThreeToes {
    std::vector<Session> states{dayWithMarks(6)};
    EditHistory history;
    ThreeToes()
    {
        for (int frame = 1; frame <= 3; ++frame) {
            states.push_back(withToe(states.back(), frame));
            history.edits.push_back(editBetween("toe " + std::to_string(frame),
                                                states[states.size() - 2], states.back()));
        }
        history.done = 2;
    }
    [[nodiscard]] const Session& document() const { return states[2]; }
};

/// More edits than are kept, one after another.
struct ManyToes {
    static constexpr int count = 600;
    const Session first{dayWithMarks(6)};
    Session last{first};
    std::vector<PastEdit> edits;
    ManyToes()
    {
        for (int frame = 0; frame < count; ++frame) {
            auto next = withToe(last, frame);
            edits.push_back(editBetween("toe " + std::to_string(frame), last, next));
            last = std::move(next);
        }
    }
};

} // namespace

TEST_CASE("kept edits lead back to the first state and on to the last", "[journal]")
{
    const ScratchFolder folder;
    const ThreeToes toes;
    REQUIRE(keepEditHistory(toes.history, base, folder.path()));
    const auto read = editHistoryOf(toes.document(), base, folder.path());
    REQUIRE(read == toes.history);
    auto state = toes.document();
    for (std::size_t i = read.done; i > 0; --i) {
        state = withEdit(state, read.edits[i - 1].back).value();
        CHECK(state == toes.states[i - 1]);
    }
    for (std::size_t i = 0; i < read.edits.size(); ++i) {
        state = withEdit(state, read.edits[i].forward).value();
        CHECK(state == toes.states[i + 1]);
    }
}

TEST_CASE("edits of another version of the document are not offered", "[journal]")
{
    const ScratchFolder folder;
    const ThreeToes toes;
    REQUIRE(keepEditHistory(toes.history, base, folder.path()));
    CHECK(editHistoryOf(toes.document(), std::string(64, 'b'), folder.path()).edits.empty());
    CHECK(editHistoryOf(toes.document(), base, folder / "elsewhere").edits.empty());
}

TEST_CASE("a history cut anywhere gives edits that work, or none", "[journal]")
{
    const ScratchFolder folder;
    const ThreeToes toes;
    REQUIRE(keepEditHistory(toes.history, base, folder.path()));
    const auto whole = bytesOf(folder / "session.edits");
    std::set<std::size_t> counts;
    for (std::size_t size = 0; size < whole.size(); ++size) {
        (void)folder.file("session.edits", whole.substr(0, size));
        const auto read = editHistoryOf(toes.document(), base, folder.path());
        counts.insert(read.edits.size());
        for (std::size_t i = 0; i < read.edits.size(); ++i) {
            CHECK(read.edits[i] == toes.history.edits[i]);
        }
    }
    CHECK(counts == std::set<std::size_t>{0, 2}); // both done ones, or nothing to count from
}

TEST_CASE("edits that lead nowhere are left out with all beyond them", "[journal]")
{
    const ScratchFolder folder;
    const ThreeToes toes;
    auto history = toes.history;
    history.edits[0].back = R"({"clips":[{"clip":7,"marks":[]}]})";
    history.edits[2].forward = R"({"whole":{"version":1}})";
    REQUIRE(keepEditHistory(history, base, folder.path()));
    const auto read = editHistoryOf(toes.document(), base, folder.path());
    REQUIRE(read.edits.size() == 1);
    CHECK(read.edits[0].name == "toe 2");
    CHECK(read.done == 1);
}

TEST_CASE("the oldest edits and those that changed nothing are not kept", "[journal]")
{
    const ScratchFolder folder;
    const ManyToes toes;
    EditHistory history;
    for (const auto& edit : toes.edits) {
        history.edits.push_back(edit);
        history.edits.push_back(editBetween("the athlete's mass", toes.last, toes.last));
    }
    history.done = history.edits.size();
    REQUIRE(keepEditHistory(history, base, folder.path()));
    const auto read = editHistoryOf(toes.last, base, folder.path());
    CHECK(read.edits.size() == 500);
    CHECK(read.done == 500);
    CHECK(read.edits.back().name == "toe 599");
}

TEST_CASE("of too many undone edits those next to the document are kept", "[journal]")
{
    const ScratchFolder folder;
    const ManyToes toes;
    REQUIRE(keepEditHistory({toes.edits, 0}, base, folder.path()));
    const auto read = editHistoryOf(toes.first, base, folder.path());
    REQUIRE(read.edits.size() == 500);
    CHECK(read.done == 0);
    CHECK(read.edits.front().name == "toe 0");
}

TEST_CASE("a record takes the place of a link, and what it led to stays", "[journal][refusals]")
{
    const ScratchFolder folder;
    const auto foreign = folder.file("thesis.odt", "years of work");
    std::filesystem::create_directories(folder / "day");
    std::filesystem::create_symlink(foreign, folder / "day/session.edits");
    const ThreeToes toes;
    REQUIRE(keepEditHistory(toes.history, base, folder / "day"));
    CHECK(bytesOf(foreign) == "years of work");
    CHECK(editHistoryOf(toes.document(), base, folder / "day") == toes.history);
}

TEST_CASE("what was recovered after a crash can be undone as one edit", "[journal]")
{
    const ScratchFolder folder;
    const LockOwner coach{"R. Vale", "studio-2"};
    const ThreeToes toes;
    REQUIRE(writeSession(toes.states[0], folder.path()));
    {
        auto file = SessionFile::open(folder.path(), coach).value();
        REQUIRE(file.save(toes.states[1]));
        REQUIRE(file.keepHistory({{toes.history.edits[0]}, 1}));
        REQUIRE(file.keep(toes.states[2])); // and here the power goes
    }
    auto file = SessionFile::open(folder.path(), coach).value();
    REQUIRE(file.recovery());
    REQUIRE(file.recover());
    const auto history = SessionFile(std::move(file)).history();
    REQUIRE(history.edits.size() == 2);
    CHECK(history.done == 2);
    CHECK(withEdit(toes.states[2], history.edits[1].back) == toes.states[1]);
}
