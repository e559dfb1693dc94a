// SPDX-License-Identifier: GPL-3.0-or-later
// A document once written can be read for good: tests/core/store/golden holds one of every version
// there has been, and none of them is ever changed.
#include "core/store/coaches.hpp"
#include "core/store/session_file.hpp"
#include "tests/catch.hpp"
#include "tests/project_folders.hpp"
#include "tests/scratch_folder.hpp"

using namespace latemile;
using namespace latemile::tests;

namespace {

/// A golden document under the name it has in a library.
std::filesystem::path placed(const ScratchFolder& folder, const char* golden, const char* name)
{
    return folder.file(name, bytesOf(sourceFolder() / "tests/core/store/golden" / golden));
}

} // namespace

TEST_CASE("an athlete of version 1 is read", "[store][golden]")
{
    const ScratchFolder folder;
    const auto athlete = readAthlete(placed(folder, "athlete-1.json", "athlete.json"));
    REQUIRE(athlete);
    CHECK(athlete->code == "IV-01");
    CHECK(athlete->heightCm == 167.0);
    CHECK(athlete->consent->givenBy == "Ilse Varga");
    CHECK(athlete->unknown.empty());
}

TEST_CASE("a session of version 1 is read and written back as it was", "[store][golden]")
{
    const ScratchFolder folder;
    const auto file = placed(folder, "session-1.json", "session.json");
    const auto session = readSession(folder.path());
    REQUIRE(session);
    REQUIRE(session->clips.size() == 1);
    const auto& clip = session->clips.front();
    CHECK(clip.marking.marks.size() == 2);
    CHECK(clip.marking.stances.size() == 2);
    CHECK(clip.marking.unseen.size() == 1);
    CHECK(clip.scene.beltSpeed == 2.7);
    CHECK(session->stills.freshStep == StepNumber{3});
    CHECK(session->measuresAfterLooking);
    CHECK(session->nextRefilm == "2026-09-26");
    const auto before = bytesOf(file);
    REQUIRE(writeSession(*session, folder.path()));
    CHECK(readSession(folder.path()).value() == *session);
    CHECK(bytesOf(folder / "session.previous.json") == before);
}

TEST_CASE("coaches of version 1 are read", "[store][golden]")
{
    const ScratchFolder folder;
    (void)placed(folder, "coaches-1.json", "coaches.json");
    const auto coaches = readCoaches(folder.path());
    REQUIRE(coaches);
    REQUIRE(coaches->size() == 1);
    CHECK(coaches->front().pairs == 96);
}

TEST_CASE("a journal and edits of version 1 still lead on from their session", "[store][golden]")
{
    const ScratchFolder folder;
    (void)placed(folder, "session-1.json", "session.json");
    (void)placed(folder, "session-1.edits", "session.edits");
    {
        auto opened = SessionFile::open(folder.path(), LockOwner{"R. Vale", "studio-2"});
        REQUIRE(opened);
        const auto edits = opened->history();
        REQUIRE(edits.edits.size() == 2);
        CHECK(edits.done == 0);
        CHECK(edits.edits[1].name == "note");
        CHECK(withEdit(opened->session(), edits.edits[1].forward)->note == "Warm.");
    }
    (void)placed(folder, "session-1.journal", "session.journal");
    auto opened = SessionFile::open(folder.path(), LockOwner{"R. Vale", "studio-2"});
    REQUIRE(opened);
    REQUIRE(opened->recovery());
    CHECK(opened->recovery()->unusable == 0);
    CHECK(opened->recovery()->session.note == "Warm.");
    CHECK(opened->recovery()->session.clips.front().marking.marks.size() == 3);
}

TEST_CASE("a document of a later version is refused and stays as it is", "[store][golden]")
{
    const ScratchFolder folder;
    const auto later = [&folder](const char* golden, const char* name) {
        const auto file = placed(folder, golden, name);
        auto text = bytesOf(file);
        const auto at = text.find("\"version\": 1");
        REQUIRE(at != std::string::npos);
        text.replace(at, 12, "\"version\": 2");
        return folder.file(name, text);
    };
    const auto athlete = later("athlete-1.json", "athlete.json");
    const auto session = later("session-1.json", "session.json");
    const auto bytes = bytesOf(session);
    const auto one = readAthlete(athlete);
    const auto two = readSession(folder.path());
    REQUIRE_FALSE(one);
    REQUIRE_FALSE(two);
    CHECK(one.error().sentence.find("athlete.json") != std::string::npos);
    CHECK(two.error().sentence.find("session.json") != std::string::npos);
    CHECK(bytesOf(session) == bytes);
}
