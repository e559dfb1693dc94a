// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/document_schema.hpp"
#include "tests/app/program.hpp"
#include "tests/catch.hpp"
#include "tests/scratch_folder.hpp"

#include <nlohmann/json.hpp>

#include <fstream>

using latemile::faultBySchema;
using namespace latemile::tests;
using nlohmann::json;

namespace {

/// A library as its documentation writes it, by hand: one athlete, one day, one clip.
struct Library : ScratchFolder {
    Library()
    {
        (void)file("ilse/athlete.json", R"({"version":1,"code":"IV-1","name":"Ilse Varga"})");
        (void)file("ilse/2026-08-29/session.json", day("windy"));
        (void)file("ilse/2026-08-29/clips/fresh.mp4", "abc");
    }
    static std::string day(const std::string& note)
    {
        return R"({"version":1,"date":"2026-08-29","note":")" + note +
               R"(","clips":[{"file":"clips/fresh.mp4","condition":"fresh",
                 "scene":{"view":"left-side","travel":"left"}}]})";
    }
    [[nodiscard]] std::filesystem::path session() const
    {
        return path() / "ilse/2026-08-29/session.json";
    }
    [[nodiscard]] Ran check(std::vector<std::string> more = {}) const
    {
        more.insert(more.begin(), {"check", path().string(), "--json"});
        return batch(more);
    }
};

/// The state of the finding about a file; "none" where there is none.
std::string stateOf(const Ran& ran, const std::string& file)
{
    const auto answer = json::parse(ran.out);
    CHECK(faultBySchema("check", answer) == "");
    for (const auto& finding : answer["findings"]) {
        if (finding["file"] == file) {
            return finding["state"];
        }
    }
    return "none";
}

const std::string sessionName = "ilse/2026-08-29/session.json";
const std::string journalName = "ilse/2026-08-29/session.journal";
const std::string clipName = "ilse/2026-08-29/clips/fresh.mp4";

// SHA-256 of "abc" (NIST's example of one block).
const std::string abcSum = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";

/// A record of a journal; the sums are those of Python 3.11's zlib.crc32.
std::string record(const std::string& crc, const std::string& text)
{
    return crc + " " + text + "\n";
}

} // namespace

TEST_CASE("a whole library passes, and a clip without a checksum is no fault", "[batch][check]")
{
    const Library library;
    const auto ran = library.check();
    CHECK(ran.exit == 0);
    CHECK(ran.err.empty());
    const auto answer = json::parse(ran.out);
    CHECK(answer["sound"] == true);
    CHECK(answer["documents"] == 2);
    CHECK(answer["clips"] == 1);
    CHECK(stateOf(ran, clipName) == "note");
    CHECK(batch({"check", library.path().string()}).out.find("All is whole.") != std::string::npos);
    CHECK(batch({"check", (library / "none").string()}).exit == 1);
}

TEST_CASE("pictures kept past the end of consent are told", "[batch][check][privacy]")
{
    const Library library;
    const auto consented = [&library](const std::string& until) {
        (void)library.file("ilse/athlete.json",
                           R"({"version":1,"code":"IV-1","name":"Ilse Varga","consent":)"
                           R"({"given_by":"Ilse Varga","as_guardian":false,"date":"2020-01-01",)"
                           R"("until":")" +
                               until + R"("}})");
        const auto ran = library.check();
        CAPTURE(ran.out, ran.err);
        CHECK(ran.exit == 0);
        return stateOf(ran, "ilse/athlete.json");
    };
    CHECK(consented("2021-01-01") == "note");
    CHECK(consented("2999-12-31") == "none");
}

TEST_CASE("a damaged document is told, and put back from its previous generation", "[batch][check]")
{
    const Library library;
    const auto damaged = GENERATE(as<std::string>{}, "", "{\"version\":1,", "[]",
                                  R"({"version":1,"date":"2026-08-29","clips":[],"cues":7})",
                                  R"({"version":1,"date":"2026-13-29","clips":[]})");
    (void)library.file(sessionName, damaged);
    const auto none = library.check({"--repair"});
    CHECK(none.exit == 1);
    CHECK(none.err.find("needs attention") != std::string::npos);
    CHECK(stateOf(none, sessionName) == "bad");
    CHECK(bytesOf(library.session()) == damaged);

    (void)library.file("ilse/2026-08-29/session.previous.json", Library::day("before"));
    const auto told = library.check();
    CHECK(told.exit == 1);
    CHECK(told.out.find("--repair") != std::string::npos);
    CHECK(bytesOf(library.session()) == damaged);

    const auto repaired = library.check({"--repair"});
    CHECK(repaired.exit == 0);
    CHECK(stateOf(repaired, sessionName) == "repaired");
    CHECK(bytesOf(library.session()) == Library::day("before"));
    CHECK(bytesOf(library / "ilse/2026-08-29/session.damaged-1.json") == damaged);
    CHECK(library.check().exit == 0);
}

TEST_CASE("what only the schema forbids is told with its place", "[batch][check]")
{
    // The reader asks for the landmarks it knows; the schema wants a positive number of every name.
    const Library library;
    (void)library.file("coaches.json",
                       R"({"version":1,"coaches":[{"name":"R. Vale","date":"2026-08-29",
                           "pairs":12,"click_error_cm":{"hip":0.8,"tail":-1}}]})");
    const auto ran = library.check();
    CHECK(ran.exit == 1);
    CHECK(stateOf(ran, "coaches.json") == "bad");
    CHECK(ran.out.find("coaches.json, /coaches/0/click_error_cm/tail: this does not follow "
                       "coaches.schema.json") != std::string::npos);
}

TEST_CASE("edits in a journal are told, and taken over only when asked for", "[batch][check]")
{
    const Library library;
    const auto base = run("sha256sum", {library.session().string()}).out.substr(0, 64);
    const auto first = "0 {\"base\":\"" + base + "\",\"version\":1}";
    const auto python = run("python3", {"-c",
                                        "import sys,zlib; sys.stdout.write('%08x' % "
                                        "zlib.crc32(sys.argv[1].encode()))",
                                        first});
    const std::string edit =
        R"(1 {"session":{"clips":[],"date":"2026-08-29","note":"still","version":1}})";
    const auto sum = run("python3", {"-c",
                                     "import sys,zlib; sys.stdout.write('%08x' % "
                                     "zlib.crc32(sys.argv[1].encode()))",
                                     edit});
    (void)library.file(journalName, record(python.out, first) + record(sum.out, edit) + "00 torn");
    const auto told = library.check();
    CAPTURE(told.out);
    CHECK(told.exit == 1);
    CHECK(stateOf(told, journalName) == "bad");
    CHECK(bytesOf(library.session()) == Library::day("windy"));

    const auto repaired = library.check({"--repair"});
    CHECK(repaired.exit == 0);
    CHECK(stateOf(repaired, journalName) == "repaired");
    const auto session = json::parse(bytesOf(library.session()));
    CHECK(session["note"] == "still");
    CHECK(session["clips"].size() == 1);
    CHECK(bytesOf(library / "ilse/2026-08-29/session.previous.json") == Library::day("windy"));
    CHECK(library.check().exit == 0);

    SECTION("a journal of another document stays where it is")
    {
        (void)library.file(journalName, record(python.out, first) + record(sum.out, edit));
        (void)library.file(sessionName, Library::day("another"));
        std::filesystem::remove(library / "ilse/2026-08-29/session.previous.json");
        CHECK(stateOf(library.check({"--repair"}), journalName) == "bad");
        CHECK(bytesOf(library.session()) == Library::day("another"));
        CHECK(std::filesystem::exists(library / journalName));
    }
}

TEST_CASE("a clip is checked against the sum that coreutils would write", "[batch][check][outside]")
{
    const Library library;
    const auto sums = library / "ilse/2026-08-29/clips/SHA256SUMS";
    CHECK(library.check({"--repair"}).exit == 0);
    CHECK(bytesOf(sums) == abcSum + "  fresh.mp4\n");
    CHECK(stateOf(library.check(), clipName) == "none");
    (void)library.file(clipName, "abd");
    const auto changed = library.check({"--repair"});
    CHECK(changed.exit == 1);
    CHECK(stateOf(changed, clipName) == "bad");
    CHECK(bytesOf(sums) == abcSum + "  fresh.mp4\n");
    std::filesystem::remove(library / clipName);
    CHECK(stateOf(library.check(), clipName) == "bad");
}

TEST_CASE("a linked film that moved is found again by its sum where repair may look",
          "[batch][check]")
{
    const Library library;
    REQUIRE(library.check({"--repair"}).exit == 0);
    std::filesystem::create_directories(library / "films");
    std::filesystem::rename(library / clipName, library / "films/a.mp4");
    std::filesystem::create_symlink(library / "films/a.mp4", library / clipName);
    CHECK(library.check().exit == 0);
    std::filesystem::rename(library / "films/a.mp4", library / "films/b.mp4");
    const auto lost = library.check({"--repair"});
    CHECK(lost.exit == 1);
    CHECK(lost.out.find("films/a.mp4") != std::string::npos);
    const auto found = library.check({"--repair", "--films", (library / "films").string()});
    CHECK(found.exit == 0);
    CHECK(stateOf(found, clipName) == "repaired");
    CHECK(bytesOf(library / clipName) == "abc");
    CHECK(library.check({"--films", (library / "films").string()}).exit == 2);
}
