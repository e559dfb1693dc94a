// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/hand_over.hpp"

#include "core/store/archive_owners.hpp"
#include "core/store/clip_sums.hpp"
#include "core/store/session.hpp"
#include "core/store/session_lock.hpp"
#include "tests/catch.hpp"
#include "tests/core/store/edited_session.hpp"
#include "tests/scratch_folder.hpp"

#include <cstdlib>
#include <map>

using namespace latemile;
using namespace latemile::tests;

namespace {

namespace fs = std::filesystem;

/// A library with one athlete, whose files hold what nobody reads: clips are bytes here.
struct Studio {
    Studio()
    {
        Athlete athlete;
        athlete.code = "ilse";
        athlete.name = "Ilse Varga";
        REQUIRE(writeAthlete(athlete, folder.file("library/ilse/athlete.json", "")));
        REQUIRE(writeSession(dayWithMarks(4),
                             folder.file("library/ilse/2026-08-29/x", "").parent_path()));
        for (const char* name : {"fresh.mp4", "fatigued.mp4"}) {
            const auto clip =
                folder.file("library/ilse/2026-08-29/clips/" + std::string(name), film(name[1]));
            REQUIRE(recordClipSum(clip));
        }
        (void)folder.file("library/ilse/2026-08-29/sheets/Übersicht \xE2\x9C\x93.pdf", "%PDF");
        (void)folder.file("library/ilse/2026-08-29/session.lock", "R. Vale on studio-2");
    }
    static std::string film(char seed)
    {
        std::string bytes(std::size_t{5} << 20, seed); // stored, not packed
        for (std::size_t i = 0; i < bytes.size(); i += 7) {
            bytes[i] = static_cast<char>(i * 31U >> 3U);
        }
        return bytes;
    }
    [[nodiscard]] fs::path athlete() const { return folder / "library/ilse"; }
    [[nodiscard]] fs::path zip() const { return folder / "ilse.zip"; }
    [[nodiscard]] fs::path elsewhere() const { return folder / "elsewhere"; }

    ScratchFolder folder;
};

std::map<std::string, std::string> contentOf(const fs::path& folder)
{
    std::map<std::string, std::string> files;
    for (const auto& entry : fs::recursive_directory_iterator(folder)) {
        if (entry.is_regular_file() && entry.path().extension() != ".lock") {
            files[entry.path().lexically_relative(folder).string()] = bytesOf(entry.path());
        }
    }
    return files;
}

std::size_t countIn(const fs::path& folder)
{
    return fs::exists(folder) ? static_cast<std::size_t>(std::distance(
                                    fs::directory_iterator(folder), fs::directory_iterator()))
                              : 0;
}

/// An entry of a zip made by hand, as somebody else might make it.
struct Entry {
    std::string name;
    std::string bytes{};
    std::string linkTo{};
};

fs::path zipOf(const fs::path& file, const std::vector<Entry>& entries)
{
    const ArchiveWriter writer(archive_write_new());
    archive_write_set_format_zip(writer.get());
    REQUIRE(archive_write_open_filename(writer.get(), file.c_str()) == ARCHIVE_OK);
    for (const auto& entry : entries) {
        const ArchiveEntry made(archive_entry_new());
        archive_entry_copy_pathname(made.get(), entry.name.c_str());
        archive_entry_set_filetype(made.get(), entry.linkTo.empty() ? AE_IFREG : AE_IFLNK);
        archive_entry_set_perm(made.get(), 0644);
        archive_entry_set_size(made.get(), static_cast<la_int64_t>(entry.bytes.size()));
        if (!entry.linkTo.empty()) {
            archive_entry_copy_symlink(made.get(), entry.linkTo.c_str());
        }
        REQUIRE(archive_write_header(writer.get(), made.get()) == ARCHIVE_OK);
        (void)archive_write_data(writer.get(), entry.bytes.data(), entry.bytes.size());
    }
    REQUIRE(archive_write_close(writer.get()) == ARCHIVE_OK);
    return file;
}

} // namespace

TEST_CASE("an athlete's record comes back from its zip to the byte", "[store][hand_over]")
{
    const Studio studio;
    REQUIRE(handOver(studio.athlete(), studio.zip()));
    const auto back = takeIn(studio.zip(), studio.elsewhere());
    REQUIRE(back);
    CHECK(*back == studio.elsewhere() / "ilse");
    CHECK(contentOf(*back) == contentOf(studio.athlete()));
    CHECK_FALSE(fs::exists(*back / "2026-08-29/session.lock"));
    CHECK((fs::status(*back / "2026-08-29").permissions() & fs::perms::all) ==
          fs::perms::owner_all);
    CHECK((fs::status(*back / "athlete.json").permissions() & fs::perms::all) ==
          (fs::perms::owner_read | fs::perms::owner_write));
    CHECK(countIn(studio.elsewhere()) == 1);
    CHECK(studio.folder.entries() == 3); // library, zip, elsewhere: no part of a file
}

TEST_CASE("another program unpacks a record that was handed over", "[store][hand_over][outside]")
{
    // Outside: Info-ZIP's unzip.
    const Studio studio;
    REQUIRE(handOver(studio.athlete(), studio.zip()));
    CHECK((fs::status(studio.zip()).permissions() & fs::perms::all) ==
          (fs::perms::owner_read | fs::perms::owner_write));
    const auto out = studio.folder / "out";
    const auto command =
        "LC_ALL=C.UTF-8 unzip -qq '" + studio.zip().string() + "' -d '" + out.string() + "'";
    REQUIRE(std::system(command.c_str()) == 0);
    CHECK(contentOf(out / "ilse") == contentOf(studio.athlete()));
}

TEST_CASE("an open session is not handed over", "[store][hand_over][refusals]")
{
    const Studio studio;
    const auto session = studio.athlete() / "2026-08-29";
    const auto taking = SessionLock::take(session, {"R. Vale", "studio-2"});
    REQUIRE(taking);
    const auto done = handOver(studio.athlete(), studio.zip());
    REQUIRE_FALSE(done);
    CHECK(done.error().sentence ==
          "The session 2026-08-29 is open at R. Vale on studio-2: close it there first.");
    CHECK_FALSE(fs::exists(studio.zip()));
}

TEST_CASE("a hand-over that is stopped leaves nothing", "[store][hand_over]")
{
    const Studio studio;
    double last = 0.0;
    const auto halfway = [&last](double share) {
        CHECK(share >= last);
        last = share;
        return share < 0.5;
    };
    SECTION("out")
    {
        const auto done = handOver(studio.athlete(), studio.zip(), halfway);
        REQUIRE_FALSE(done);
        CHECK(done.error().kind == Error::Kind::Cancelled);
        CHECK(studio.folder.entries() == 1);
    }
    SECTION("in")
    {
        REQUIRE(handOver(studio.athlete(), studio.zip()));
        REQUIRE_FALSE(takeIn(studio.zip(), studio.elsewhere(), halfway));
        CHECK(countIn(studio.elsewhere()) == 0);
    }
}

TEST_CASE("a record is never written over one that is there", "[store][hand_over][refusals]")
{
    const Studio studio;
    REQUIRE(handOver(studio.athlete(), studio.zip()));
    const auto before = contentOf(studio.athlete());
    const auto back = takeIn(studio.zip(), studio.folder / "library");
    REQUIRE_FALSE(back);
    CHECK(back.error().sentence == "The library has a folder ilse already: nothing was taken in. "
                                   "Rename or remove that one first.");
    CHECK(contentOf(studio.athlete()) == before);
}

TEST_CASE("a damaged record is not taken in", "[store][hand_over][refusals]")
{
    const Studio studio;
    REQUIRE(handOver(studio.athlete(), studio.zip()));
    const auto whole = bytesOf(studio.zip());
    const auto refused = [&](const std::string& bytes) {
        const auto back = takeIn(studio.folder.file("bad.zip", bytes), studio.elsewhere());
        REQUIRE_FALSE(back);
        CAPTURE(back.error().sentence);
        CHECK(back.error().sentence.find("bad.zip") != std::string::npos);
        CHECK(back.error().sentence.find("nothing was taken in") != std::string::npos);
        CHECK(countIn(studio.elsewhere()) == 0);
    };
    SECTION("cut off anywhere")
    {
        for (const double share : {0.0, 0.01, 0.3, 0.7, 0.99}) {
            refused(whole.substr(
                0, static_cast<std::size_t>(share * static_cast<double>(whole.size()))));
        }
    }
    SECTION("a byte of a clip is another")
    {
        auto bytes = whole;
        bytes[bytes.size() / 2] = static_cast<char>(bytes[bytes.size() / 2] + 1);
        refused(bytes);
    }
    SECTION("no zip at all")
    {
        refused("This is a letter.");
    }
}

TEST_CASE("a zip that would write outside its folder is refused", "[store][hand_over][refusals]")
{
    const ScratchFolder folder;
    const auto zip = folder / "other.zip";
    struct Case {
        std::vector<Entry> entries;
        std::string words;
    };
    const std::vector<Case> cases{
        {{{"ilse/../../out.txt", "x"}}, "leads out of its folder"},
        {{{"/tmp/latemile-out.txt", "x"}}, "leads out of its folder"},
        {{{"ilse\\..\\out.txt", "x"}}, "leads out of its folder"},
        {{{"ilse/link", "", "/etc/passwd"}}, "holds a link"},
        {{{"ilse/a", "x"}, {"other/b", "x"}}, "more than one athlete's folder"},
        {{{".hidden/athlete.json", "{}"}}, "more than one athlete's folder"},
        {{{"ilse/a", "x"}, {"ilse/a", "y"}}, "two files of one name"},
        {{{"ilse/notes.txt", "x"}}, "holds no athlete.json"},
        {{}, "holds no athlete's record"},
    };
    const auto at = GENERATE(range(0, 9));
    REQUIRE(cases.size() == 9);
    const auto& [entries, words] = cases[static_cast<std::size_t>(at)];
    const auto back = takeIn(zipOf(zip, entries), folder / "library");
    REQUIRE_FALSE(back);
    CAPTURE(back.error().sentence);
    CHECK(back.error().sentence.find(words) != std::string::npos);
    CHECK(countIn(folder / "library") == 0);
    CHECK(folder.entries() == 2);
    CHECK_FALSE(fs::exists("/tmp/latemile-out.txt"));
}

TEST_CASE("a zip that unpacks out of all proportion is refused", "[store][hand_over][refusals]")
{
    const ScratchFolder folder;
    const auto zip = zipOf(folder / "bomb.zip",
                           {{"ilse/athlete.json", std::string(std::size_t{100} << 20, '\0')}});
    REQUIRE(fs::file_size(zip) < 1'000'000);
    const auto back = takeIn(zip, folder / "library");
    REQUIRE_FALSE(back);
    CHECK(back.error().sentence.find("out of all proportion") != std::string::npos);
    CHECK(countIn(folder / "library") == 0);
}
