// SPDX-License-Identifier: GPL-3.0-or-later
// What a person may type, paste or receive as a name, and what must come of it: the same text back
// from the documents, and no harm on the way.
#include "core/csv.hpp"
#include "core/store/clip_sums.hpp"
#include "core/store/session.hpp"
#include "core/store/session_changes.hpp"
#include "core/store/session_file.hpp"
#include "tests/catch.hpp"
#include "tests/core/store/edited_session.hpp"
#include "tests/hostile_names.hpp"
#include "tests/scratch_folder.hpp"

using namespace latemile;
using namespace latemile::tests;

TEST_CASE("any name comes back from the documents and the journal as it was typed", "[hostile]")
{
    const auto names = hostileNames();
    CHECK(names.size() >= 40);
    for (const std::string& name : names) {
        CAPTURE(name);
        const ScratchFolder folder;
        Athlete athlete;
        athlete.code = "IV-1";
        athlete.name = name;
        athlete.note = name;
        athlete.consent =
            Consent{.givenBy = name, .asGuardian = false, .date = "2026-08-29", .until = {}};
        REQUIRE(writeAthlete(athlete, folder / "athlete.json"));
        CHECK(readAthlete(folder / "athlete.json").value() == athlete);

        Session day = dayWithMarks(1);
        REQUIRE(writeSession(day, folder.path()));
        day.note = name;
        day.coach = name;
        day.clips[0].shoes = name;
        {
            auto file = SessionFile::open(folder.path(), {name, name}).value();
            REQUIRE(file.keep(day));
            // Whoever comes second reads the name of the first.
            const auto second = SessionFile::open(folder.path(), {"x", "y"}).value();
            CHECK(second.remark().find(name + " on " + name) != std::string::npos);
        }
        auto again = SessionFile::open(folder.path(), {"x", "y"}).value();
        REQUIRE(again.recovery());
        CHECK(again.recovery()->session == day);
        REQUIRE(again.recover());
        CHECK(readSession(folder.path()).value() == day);
    }
}

TEST_CASE("bytes that are no text do not make a document that cannot be read", "[hostile]")
{
    for (const char* bytes : {"\xFF\xFE", "\xC0\x80", "\xED\xA0\x80", "Zo\xEB"}) {
        const ScratchFolder folder;
        Session day = dayWithMarks(1);
        REQUIRE(writeSession(day, folder.path()));
        day.note = bytes;
        {
            auto file = SessionFile::open(folder.path(), {bytes, bytes}).value();
            REQUIRE(file.keep(day));
        }
        auto again = SessionFile::open(folder.path(), {"x", "y"}).value();
        REQUIRE(again.recovery());
        REQUIRE(again.recover());
        // U+FFFD stands for what was no text.
        CHECK(readSession(folder.path())->note.find("\xEF\xBF\xBD") != std::string::npos);
    }
}

TEST_CASE("no name of a clip leads out of its session", "[hostile]")
{
    const ScratchFolder folder;
    for (const char* name : {"../x.mp4", "/etc/passwd", "clips/../../x", "", ".."}) {
        Session day = dayWithMarks(0);
        day.clips[0].file = name;
        REQUIRE(writeSession(day, folder.path()));
        CAPTURE(name);
        CHECK_FALSE(readSession(folder.path()));
    }
}

TEST_CASE("a table holds any name, guarded where a spreadsheet would reckon", "[hostile][outside]")
{
    // OWASP, CSV Injection: = + - @, tab and carriage return begin a formula. A text that begins
    // with the guard itself is guarded too. The csv module of Python reads the table; it shares no
    // code with ours.
    const ScratchFolder folder;
    CsvText table({"name", "after"});
    std::string expected;
    for (const std::string& name : hostileNames()) {
        if (name.find('\0') != std::string::npos) {
            continue; // no table holds a NUL
        }
        table.text(name).integer(7);
        table.endRow();
        const bool formula =
            !name.empty() && std::string_view("=+-@\t\r'").find(name[0]) != std::string_view::npos;
        expected += (formula ? "'" : "") + name + "\n7\n";
    }
    const auto file = folder.file("names.csv", table.whole());
    const auto read = folder / "read";
    const auto command =
        "python3 -c \"import csv,sys; sys.stdout.reconfigure(newline=''); "
        "[print(*r, sep='\\n', end='\\n') for r in list(csv.reader(open(sys.argv[1], "
        "newline='', encoding='utf-8')))[1:]]\" '" +
        file.string() + "' > '" + read.string() + "'";
    REQUIRE(std::system(command.c_str()) == 0);
    CHECK(bytesOf(read) == expected);
}

TEST_CASE("the sums of clips bear any file's name", "[hostile]")
{
    const ScratchFolder folder;
    std::size_t written = 0;
    for (const std::string& name : hostileNames()) {
        if (name.find('/') != std::string::npos || name.find('\0') != std::string::npos ||
            name.size() > 255 || name == "." || name == "..") {
            continue; // no file can be called so
        }
        CAPTURE(name);
        REQUIRE(recordClipSum(folder.file(name, name)));
        ++written;
    }
    const auto sums = readClipSums(folder.path()).value();
    CHECK(sums.size() == written);
    CHECK(sums.contains("line\nline"));
    // The core utilities are the judge of the file.
    const auto command =
        "cd '" + folder.path().string() + "' && sha256sum --strict --status -c SHA256SUMS";
    CHECK(std::system(command.c_str()) == 0);
}
