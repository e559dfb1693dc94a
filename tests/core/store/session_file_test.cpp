// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/session_file.hpp"

#include "core/files/checksum.hpp"
#include "core/store/session_changes.hpp"
#include "core/store/session_json.hpp"
#include "tests/catch.hpp"
#include "tests/core/files/faulty_disk.hpp"
#include "tests/core/files/model_disk.hpp"
#include "tests/core/store/edited_session.hpp"
#include "tests/scratch_folder.hpp"

#include <cerrno>
#include <set>

using namespace latemile;
using namespace latemile::tests;

namespace {

const LockOwner coach{"R. Vale", "studio-2"};
const std::filesystem::path model = "/model";

/// A session folder with one saved day in it.
struct Folder : ScratchFolder {
    Folder() { REQUIRE(writeSession(dayWithMarks(6), path())); }
    [[nodiscard]] SessionFile open() const { return SessionFile::open(path(), coach).value(); }
    [[nodiscard]] std::set<std::string> names() const
    {
        std::set<std::string> names;
        for (const auto& entry : std::filesystem::directory_iterator(path())) {
            names.insert(entry.path().filename().string());
        }
        return names;
    }
};

/// What is there for the coach after everything that a reopened session offers.
Session afterRecovery(const std::filesystem::path& folder, FileSystem& files)
{
    auto opened = SessionFile::open(folder, coach, files);
    REQUIRE(opened);
    REQUIRE(opened->isWritable());
    if (opened->recovery()) {
        CHECK(opened->recovery()->unusable == 0);
        REQUIRE(opened->recover());
    }
    return opened->session();
}

} // namespace

TEST_CASE("edits that were kept are offered once, with what they hold", "[journal]")
{
    const Folder folder;
    const Session before = dayWithMarks(6);
    {
        auto file = folder.open();
        CHECK(file.session() == before);
        REQUIRE(file.keep(withToe(before, 1)));
        REQUIRE(file.keep(withToe(withToe(before, 1), 2)));
        CHECK(readSession(folder.path()).value() == before);
    }
    SECTION("taken over: in the document, and not offered again")
    {
        auto file = folder.open();
        REQUIRE(file.recovery());
        CHECK(file.recovery()->holds == "2 marks");
        REQUIRE(file.recover());
        CHECK(file.session() == withToe(withToe(before, 1), 2));
        CHECK(readSession(folder.path()).value() == file.session());
        CHECK_FALSE(file.recovery());
    }
    SECTION("left out: kept under another name, and not offered again")
    {
        REQUIRE(folder.open().leaveOut());
        CHECK(folder.names().contains("session.left-out-1.journal"));
        CHECK(folder.open().session() == before);
    }
    SECTION("not answered: offered the next time")
    {
        CHECK(folder.open().recovery());
        CHECK(folder.open().recovery());
        return;
    }
    CHECK_FALSE(folder.open().recovery());
    CHECK_FALSE(folder.names().contains("session.journal"));
    CHECK_FALSE(folder.names().contains("session.lock"));
}

TEST_CASE("a save empties the journal, and a closed session leaves none", "[journal]")
{
    const Folder folder;
    {
        auto file = folder.open();
        REQUIRE(file.keep(withToe(file.session(), 1)));
        REQUIRE(file.save(withToe(file.session(), 2)));
        CHECK(std::filesystem::file_size(folder / "session.journal") == 0);
        REQUIRE(file.keep(file.session()));
        CHECK(std::filesystem::file_size(folder / "session.journal") == 0);
    }
    CHECK(folder.names() == std::set<std::string>{"session.json", "session.previous.json"});
    CHECK_FALSE(folder.open().recovery());
    CHECK(folder.open().session() == withToe(withToe(dayWithMarks(6), 1), 2));
}

TEST_CASE("a session that was never saved comes back from its journal", "[journal]")
{
    const ScratchFolder folder;
    {
        auto file = SessionFile::begin(folder.path(), coach).value();
        REQUIRE(file.keep(dayWithMarks(2)));
        REQUIRE(file.keep(withToe(dayWithMarks(2), 9)));
    }
    CHECK_FALSE(std::filesystem::exists(folder / "session.json"));
    CHECK_FALSE(SessionFile::begin(folder.path(), coach));
    CHECK(afterRecovery(folder.path(), disk()) == withToe(dayWithMarks(2), 9));
    CHECK(readSession(folder.path()).value() == withToe(dayWithMarks(2), 9));
}

TEST_CASE("a journal of another document is never replayed, and never lost", "[journal]")
{
    const Folder folder;
    REQUIRE(folder.open().keep(withToe(dayWithMarks(6), 1)));
    const auto journal = bytesOf(folder / "session.journal");
    SECTION("the document was changed since")
    {
        REQUIRE(writeSession(dayWithMarks(4), folder.path()));
        {
            const auto file = folder.open();
            CHECK(file.session() == dayWithMarks(4));
            CHECK_FALSE(file.recovery());
            CHECK(file.remark().find("session.unmatched-1.journal") != std::string::npos);
        }
        CHECK(bytesOf(folder / "session.unmatched-1.journal") == journal);
        CHECK(folder.open().remark().empty());
    }
    SECTION("the document is gone")
    {
        std::filesystem::remove(folder / "session.json");
        const auto opened = SessionFile::open(folder.path(), coach);
        REQUIRE_FALSE(opened);
        CHECK(opened.error().kind == Error::Kind::NotFound);
        CHECK(bytesOf(folder / "session.journal") == journal);
    }
}

TEST_CASE("a damaged journal gives what stands before the damage and keeps the rest", "[journal]")
{
    const Folder folder;
    const Session before = dayWithMarks(6);
    Session now = before;
    {
        auto file = folder.open();
        for (int frame = 1; frame <= 4; ++frame) {
            now = withToe(now, frame);
            REQUIRE(file.keep(now));
        }
    }
    auto bytes = bytesOf(folder / "session.journal");
    bytes[bytes.find("\"frame\":3") + 8] = '5';
    (void)folder.file("session.journal", bytes);
    auto file = folder.open();
    REQUIRE(file.recovery());
    CHECK(file.recovery()->holds == "2 marks");
    CHECK(file.recovery()->unusable == 1); // the fourth is whole, but builds on the third
    REQUIRE(file.recover());
    CHECK(file.session() == withToe(withToe(before, 1), 2));
    CHECK(bytesOf(folder / "session.damaged-1.journal") == bytes);
    CHECK_FALSE(file.remark().empty());
}

TEST_CASE("a program that ends right after taking over does not offer it again", "[journal]")
{
    const Folder folder;
    REQUIRE(folder.open().keep(withToe(dayWithMarks(6), 1)));
    const auto journal = bytesOf(folder / "session.journal");
    REQUIRE(folder.open().recover());
    (void)folder.file("session.journal", journal);
    const auto file = folder.open();
    CHECK_FALSE(file.recovery());
    CHECK(file.remark().empty());
    CHECK(folder.names() == std::set<std::string>{"session.json", "session.previous.json",
                                                  "session.edits", "session.lock"});
}

TEST_CASE("the second to open a session may look, and is told who has it", "[lock]")
{
    const Folder folder;
    {
        auto first = folder.open();
        const auto second = SessionFile::open(folder.path(), {"M. Osei", "studio-3"}).value();
        CHECK(first.isWritable());
        CHECK_FALSE(second.isWritable());
        CHECK(second.session() == dayWithMarks(6));
        CHECK(second.remark().find("R. Vale on studio-2") != std::string::npos);
        // The live journal of the first is no recovery for the second.
        REQUIRE(first.keep(withToe(dayWithMarks(6), 1)));
        CHECK_FALSE(SessionFile::open(folder.path(), coach)->recovery());
        REQUIRE(first.keep(withToe(dayWithMarks(6), 2)));
    }
    CHECK(folder.open().isWritable());
    // A lock file left by a program that was killed holds nobody up.
    (void)folder.file("session.lock", R"({"owner":"R. Vale","host":"studio-2","process":1})");
    CHECK(folder.open().isWritable());
}

TEST_CASE("a document changed by somebody else is kept beside ours", "[lock]")
{
    const Folder folder;
    {
        auto file = folder.open();
        REQUIRE(writeSession(dayWithMarks(2), folder.path())); // a script, without asking for locks
        REQUIRE(file.save(withToe(dayWithMarks(6), 1)));
        CHECK(file.remark().find("session.other-1.json") != std::string::npos);
        REQUIRE(file.save(withToe(dayWithMarks(6), 2)));
    }
    CHECK(readSession(folder.path()).value() == withToe(dayWithMarks(6), 2));
    const auto other = nlohmann::json::parse(bytesOf(folder / "session.other-1.json"));
    CHECK(sessionFrom(JsonField(other, "other")).value() == dayWithMarks(2));
    CHECK_FALSE(folder.names().contains("session.other-2.json"));
}

namespace {

/// Opens, keeps two edits, saves, keeps a third; says how far it got after each.
void work(FileSystem& files, const std::filesystem::path& folder,
          const std::function<void(int, bool)>& told)
{
    auto opened = SessionFile::open(folder, coach, files);
    if (!opened || !opened->isWritable()) {
        return;
    }
    Session now = opened->session();
    for (int edit = 1; edit <= 5; ++edit) {
        now = withToe(now, edit);
        told(edit, static_cast<bool>(edit == 3 ? opened->save(now) : opened->keep(now)));
    }
}

int lastToe(const Session& session)
{
    int last = 0;
    for (const auto& [key, mark] : session.clips[0].marking.marks) {
        last = key.landmark == Landmark::Toe ? static_cast<int>(key.frame.value) : last;
    }
    return last;
}

Session withToes(int count)
{
    Session session = dayWithMarks(6);
    for (int edit = 1; edit <= count; ++edit) {
        session = withToe(session, edit);
    }
    return session;
}

} // namespace

TEST_CASE("any one call of a day's work may fail: no edit told as saved is lost", "[journal]")
{
    std::size_t failures = 0;
    for (const int code : {ENOSPC, EIO, EACCES, FaultyDisk::shortWrite}) {
        for (std::size_t call = 0;; ++call) {
            const Folder folder;
            FaultyDisk faulty(disk());
            faulty.failAt(call, code);
            int safe = 0;
            work(faulty, folder.path(), [&](int edit, bool kept) { safe = kept ? edit : safe; });
            if (faulty.calls().size() <= call) {
                CHECK(safe == 5);
                break;
            }
            ++failures;
            const auto failed = faulty.calls()[call];
            CAPTURE(call, code, failed);
            // A document that failed at its very end may be there: then the journal matches it.
            const auto left = afterRecovery(folder.path(), disk());
            CHECK(lastToe(left) >= safe);
            CHECK(left == withToes(lastToe(left)));
            for (const auto& name : folder.names()) {
                CAPTURE(name);
                CHECK((name == "session.json" || name == "session.previous.json" ||
                       name == "session.edits" || failed == "remove"));
            }
        }
    }
    CHECK(failures > 200);
}

TEST_CASE("the power may go at any moment of a day's work: no edit told as saved is lost",
          "[journal]")
{
    ModelDisk disk;
    disk.put(model / "session.json", jsonText(toJson(dayWithMarks(6))));
    std::vector<std::size_t> safeFrom(6); // how many changes of the disk made an edit safe
    work(disk, model, [&](int edit, bool kept) {
        REQUIRE(kept);
        safeFrom[static_cast<std::size_t>(edit)] = disk.changes();
    });
    std::size_t cuts = 0;
    for (std::size_t changes = 0; changes <= disk.changes(); ++changes) {
        int safe = 5;
        while (safe > 0 && safeFrom[static_cast<std::size_t>(safe)] > changes) {
            --safe;
        }
        disk.afterPowerCut(changes, [&](ModelDisk left) {
            ++cuts;
            CAPTURE(changes, safe);
            const auto session = afterRecovery(model, left);
            CHECK(lastToe(session) >= safe);
            CHECK(session == withToes(lastToe(session)));
        });
    }
    CHECK(cuts > 100);
}

TEST_CASE("an edit among 10,000 marks writes the changed part alone", "[journal]")
{
    ModelDisk disk;
    Session now = dayWithMarks(10'000);
    disk.put(model / "session.json", jsonText(toJson(now)));
    auto file = SessionFile::open(model, coach, disk).value();
    constexpr int edits = 20;
    for (int edit = 0; edit < edits; ++edit) {
        now.clips[0].marking.marks.begin()->second.at.u += 1;
        REQUIRE(file.keep(now));
    }
    CHECK(disk.bytesOf(model / "session.journal").size() < 300U * edits);
}
