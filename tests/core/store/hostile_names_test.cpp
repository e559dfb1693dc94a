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
#include "tests/scratch_folder.hpp"

using namespace latemile;
using namespace latemile::tests;

namespace {

/// Common practice, no source; the kinds are those of OWASP's pages on injection into HTML and CSV,
/// and of Unicode Technical Report 36 for what looks like something else.
std::vector<std::string> hostileNames()
{
    return {
        "<b>Ilse</b>",
        "<script>alert(1)</script>",
        "<img src=\"file:///etc/passwd\">",
        "<a href='http://127.0.0.1/'>x</a>",
        "&lt;b&gt; &amp; &#60;",
        "</body></html>",
        "<!-- ",
        "=1+1",
        "=HYPERLINK(\"http://127.0.0.1\",\"x\")",
        "+1",
        "-2+3",
        "@SUM(A1)",
        "\t=1+1",
        "\r=1+1",
        "|calc",
        "\"quoted\", and a comma",
        "'",
        "'; DROP TABLE athletes; --",
        "line\nline",
        "line\r\nline",
        "\n",
        " ",
        "  spaces around  ",
        "../../outside",
        "/etc/passwd",
        "..",
        ".",
        ".hidden",
        "a/b",
        "a\\b",
        "C:\\Users\\x",
        "CON",
        "file:///tmp/x",
        "~",
        "$(id)",
        "`id`",
        "%s%n%d %1 %2",
        "${jndi:x}",
        "\xE2\x80\xAEgnp.esli",                                 // U+202E, right to left from here
        "\xE2\x80\x8B",                                         // U+200B, no width
        "Ilse\xEF\xBB\xBFVarga",                                // a byte order mark inside
        "\xF0\x9F\x8F\x83\xE2\x80\x8D\xE2\x99\x80\xEF\xB8\x8F", // a running woman, of four signs
        "Zo\xC3\xAB",
        "Zoe\xCC\x88", // the same by eye, not by bytes
        "\xD8\xA5\xD9\x84\xD8\xB2\xD8\xA7",
        "null",
        "true",
        "1e999",
        "{\"version\":1}",
        "] } , \\u0000 \\",
        std::string("zero\0byte", 9),
        "\x01\x1F\x7F",
        std::string(10'240, 'n'),
    };
}

} // namespace

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

TEST_CASE("a name that a spreadsheet would take for a formula is guarded in tables", "[hostile]")
{
    // OWASP, CSV Injection: = + - @, tab and carriage return begin a formula.
    for (const std::string& name : hostileNames()) {
        CAPTURE(name);
        const bool formula =
            !name.empty() && std::string_view("=+-@\t\r").find(name[0]) != std::string_view::npos;
        CHECK((needsGuard(name) || !formula));
    }
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
