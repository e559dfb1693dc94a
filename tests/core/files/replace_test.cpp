// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/whole_file.hpp"
#include "tests/catch.hpp"
#include "tests/core/files/faulty_disk.hpp"
#include "tests/core/files/model_disk.hpp"
#include "tests/scratch_folder.hpp"

#include <sys/stat.h>

#include <cerrno>
#include <set>

using namespace latemile;
using namespace latemile::tests;

namespace {

const std::filesystem::path model = "/model/session.json";
const std::filesystem::path modelPrevious = "/model/session.previous.json";
const std::string oldest = "the oldest\n";
const std::string old = "the old document\n";
const std::string fresh = std::string(100'000, 'n') + "the new document\n";

mode_t rightsOf(const std::filesystem::path& file)
{
    struct stat now {};
    REQUIRE(::stat(file.c_str(), &now) == 0);
    return now.st_mode & 07777U;
}

std::set<std::string> namesIn(const std::filesystem::path& folder)
{
    std::set<std::string> names;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        names.insert(entry.path().filename().string());
    }
    return names;
}

} // namespace

TEST_CASE("a replaced document keeps one generation beside it", "[files]")
{
    const ScratchFolder folder;
    const auto file = folder / "session.json";
    REQUIRE(replaceDocument(file, "one"));
    CHECK(namesIn(folder.path()) == std::set<std::string>{"session.json"});
    REQUIRE(replaceDocument(file, "two"));
    REQUIRE(replaceDocument(file, "three"));
    CHECK(bytesOf(file) == "three");
    CHECK(bytesOf(folder / "session.previous.json") == "two");
    CHECK(namesIn(folder.path()) == std::set<std::string>{"session.json", "session.previous.json"});
    CHECK(rightsOf(file) == 0600U);
    CHECK(rightsOf(folder / "session.previous.json") == 0600U);
}

TEST_CASE("new folders of a library are their owner's alone", "[files]")
{
    const ScratchFolder folder;
    REQUIRE(makeFolders(folder / "ilse" / "2026-08-29" / "clips"));
    for (const char* name : {"ilse", "ilse/2026-08-29", "ilse/2026-08-29/clips"}) {
        CHECK(rightsOf(folder / name) == 0700U);
    }
    REQUIRE(makeFolders(folder / "ilse"));
    (void)folder.file("plain", "");
    const auto refused = makeFolders(folder / "plain" / "below");
    REQUIRE_FALSE(refused);
    CHECK(refused.error().sentence.find("plain") != std::string::npos);
}

TEST_CASE("any one call of a save may fail: the old or the new document stands, alone", "[files]")
{
    // On the real disk, each call in turn with each fault, until the save makes no more calls.
    int saves = 0;
    for (const int code : {ENOSPC, EIO, EACCES, EINTR, FaultyDisk::shortWrite}) {
        for (std::size_t call = 0;; ++call) {
            const ScratchFolder folder;
            const auto file = folder / "session.json";
            REQUIRE(replaceDocument(file, oldest));
            REQUIRE(replaceDocument(file, old));
            FaultyDisk faulty(disk());
            faulty.failAt(call, code);
            const auto saved = replaceDocument(file, fresh, faulty);
            if (faulty.calls().size() <= call) {
                REQUIRE(saved);
                break;
            }
            if (code == FaultyDisk::shortWrite && faulty.calls()[call] != "write") {
                continue;
            }
            ++saves;
            CAPTURE(call, faulty.calls()[call], code);
            const auto now = bytesOf(file);
            CHECK((now == old || now == fresh));
            CHECK((!saved || now == fresh)); // what is told as saved is saved
            if (!saved) {
                CHECK(saved.error().sentence.find("session.json") != std::string::npos);
                CHECK((saved.error().kind == Error::Kind::DiskFull) == (code == ENOSPC));
            }
            const auto names = namesIn(folder.path());
            // Clearing up may be what failed: then, and only then, its name is left.
            if (faulty.calls()[call] != "remove") {
                CHECK(names == std::set<std::string>{"session.json", "session.previous.json"});
            }
            // The next save works as if nothing had been, and leaves nothing of the failed one.
            REQUIRE(replaceDocument(file, "next"));
            CHECK(bytesOf(file) == "next");
            CHECK(bytesOf(folder / "session.previous.json") == now);
        }
    }
    CHECK(saves > 40); // 4 error numbers times about 15 calls
}

TEST_CASE("a disk without second names of a file keeps the generation by copying", "[files]")
{
    const ScratchFolder folder;
    const auto file = folder.file("session.json", old);
    FaultyDisk faulty(disk());
    REQUIRE(replaceDocument(file, old, faulty)); // to learn which call links
    const auto calls = faulty.calls();
    const auto link = std::find(calls.begin(), calls.end(), "link") - calls.begin();
    faulty.failAt(static_cast<std::size_t>(link), EPERM);
    REQUIRE(replaceDocument(file, fresh, faulty));
    CHECK(bytesOf(file) == fresh);
    CHECK(bytesOf(folder / "session.previous.json") == old);
    CHECK(folder.entries() == 2);
}

TEST_CASE("the power may go at any moment of a save: the old or the new document stands", "[files]")
{
    ModelDisk before;
    before.put(model, old);
    before.put(modelPrevious, oldest);
    const bool isFirst = GENERATE(false, true);
    ModelDisk disk = isFirst ? ModelDisk() : std::move(before);
    REQUIRE(replaceDocument(model, fresh, disk));
    int states = 0;
    for (std::size_t changes = 0; changes <= disk.changes(); ++changes) {
        disk.afterPowerCut(changes, [&](const ModelDisk& left) {
            ++states;
            CAPTURE(changes, isFirst);
            const auto now = left.bytesOf(model);
            CHECK((now == fresh || (isFirst ? !left.has(model) : now == old)));
            CHECK((changes < disk.changes() || now == fresh)); // told as saved: saved
            if (!isFirst) {
                const auto previous = left.bytesOf(modelPrevious);
                CHECK((previous == old || previous == oldest));
            }
        });
    }
    CHECK(states > 20);
}

TEST_CASE("the model of a power cut does lose what was never synced", "[files]")
{
    // Written over in place, as a program without care does: some cut must leave neither document.
    ModelDisk disk;
    disk.put(model, old);
    auto file = openFile(disk, model, 1).value();
    REQUIRE(disk.truncate(file.descriptor(), 0));
    REQUIRE(writeAll(disk, file.descriptor(), fresh));
    bool lost = false;
    for (std::size_t changes = 0; changes <= disk.changes(); ++changes) {
        disk.afterPowerCut(changes, [&](const ModelDisk& left) {
            lost = lost || (left.bytesOf(model) != old && left.bytesOf(model) != fresh);
        });
    }
    CHECK(lost);
}
