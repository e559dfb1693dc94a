// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/journal.hpp"

#include "tests/catch.hpp"
#include "tests/core/files/faulty_disk.hpp"
#include "tests/scratch_folder.hpp"

#include <cerrno>
#include <numeric>

using namespace latemile;
using namespace latemile::tests;
using nlohmann::json;

namespace {

struct Fixture {
    ScratchFolder folder;
    FaultyDisk faulty{disk()};
    std::filesystem::path file = folder / "session.journal";
    Journal journal{file, faulty};

    [[nodiscard]] JournalContent read() const { return journalFrom(bytesOf(file)); }
    void append(int edit) { REQUIRE(journal.append({{"edit", edit}}, "abc")); }
};

std::vector<json> edits(int count)
{
    std::vector<json> records;
    for (int i = 0; i < count; ++i) {
        records.push_back({{"edit", i}});
    }
    return records;
}

} // namespace

TEST_CASE("a journal gives back what was appended, in order, and names its document", "[journal]")
{
    Fixture fixture;
    CHECK(fixture.journal.isEmpty());
    for (int i = 0; i < 3; ++i) {
        fixture.append(i);
    }
    CHECK(fixture.read().base == "abc");
    CHECK(fixture.read().records == edits(3));
    CHECK_FALSE(fixture.read().tornTail);
    // By hand: zlib.crc32(b'1 {"edit":0}') of Python 3.11.
    CHECK(bytesOf(fixture.file).find("\nc60505ac 1 {\"edit\":0}\n") != std::string::npos);
}

TEST_CASE("an emptied journal begins anew, and leaves no file when nothing follows", "[journal]")
{
    Fixture fixture;
    fixture.append(7);
    REQUIRE(fixture.journal.empty());
    CHECK(fixture.read().isEmpty());
    fixture.append(0);
    CHECK(fixture.read().records == edits(1));
    REQUIRE(fixture.journal.empty());
    fixture.journal.leave();
    CHECK(fixture.folder.entries() == 0);
}

TEST_CASE("a journal cut anywhere gives its whole records and no more", "[journal]")
{
    Fixture fixture;
    for (int i = 0; i < 4; ++i) {
        fixture.append(i);
    }
    const auto whole = bytesOf(fixture.file);
    for (std::size_t size = 0; size < whole.size(); ++size) {
        const auto cut = whole.substr(0, size);
        const auto lines = std::count(cut.begin(), cut.end(), '\n');
        const auto content = journalFrom(cut);
        CAPTURE(size);
        CHECK(content.records == edits(std::max(0, static_cast<int>(lines) - 1)));
        CHECK(content.unusable == 0);
        CHECK(content.tornTail == (!cut.empty() && cut.back() != '\n'));
    }
    // As some file systems leave a tail that was never synced.
    CHECK(journalFrom(whole + std::string(512, '\0')).records == edits(4));
    CHECK(journalFrom(whole + std::string(512, '\0')).tornTail);
}

TEST_CASE("a bad record stops the replay there, and the later ones are counted", "[journal]")
{
    Fixture fixture;
    for (int i = 0; i < 5; ++i) {
        fixture.append(i);
    }
    const auto whole = bytesOf(fixture.file);
    std::size_t third = 0; // where the line of record 3 (edit 2) begins
    for (int line = 0; line < 3; ++line) {
        third = whole.find('\n', third) + 1;
    }
    const auto end = whole.find('\n', third);
    for (std::size_t at = third; at < end; ++at) {
        auto bad = whole;
        bad[at] = static_cast<char>(bad[at] ^ 0x04);
        const auto content = journalFrom(bad);
        CAPTURE(at - third);
        CHECK(content.records == edits(2));
        CHECK(content.unusable == 2);
    }
    SECTION("a record left out, doubled or out of its turn is as bad")
    {
        const auto line = whole.substr(third, end + 1 - third);
        CHECK(journalFrom(std::string(whole).erase(third, line.size())).records == edits(2));
        CHECK(journalFrom(std::string(whole).insert(third, line)).records == edits(3));
    }
    SECTION("so is a journal without its first record")
    {
        const auto content = journalFrom(whole.substr(whole.find('\n') + 1));
        CHECK(content.records.empty());
        CHECK(content.unusable == 5);
    }
}

TEST_CASE("a record that could not be written is not in the journal, the next one is", "[journal]")
{
    for (const int code : {ENOSPC, EIO, EACCES, FaultyDisk::shortWrite}) {
        for (std::size_t call = 0;; ++call) {
            Fixture fixture;
            fixture.append(0);
            fixture.faulty.failAt(call, code);
            const bool kept = static_cast<bool>(fixture.journal.append({{"edit", 1}}, "abc"));
            if (fixture.faulty.calls().size() <= call) {
                break;
            }
            CAPTURE(call, code, fixture.faulty.calls()[call]);
            CHECK(kept ==
                  (code == FaultyDisk::shortWrite && fixture.faulty.calls()[call] == "write"));
            REQUIRE(fixture.journal.append({{"edit", kept ? 2 : 1}}, "abc"));
            CHECK(fixture.read().records == edits(kept ? 3 : 2));
            CHECK(fixture.read().unusable == 0);
        }
    }
}
