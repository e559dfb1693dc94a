// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/coaches.hpp"

#include "tests/catch.hpp"
#include "tests/scratch_folder.hpp"

using namespace latemile;

namespace {

Coach coachNamed(const std::string& name, double ear)
{
    Coach coach{.name = name, .date = "2026-09-01", .pairs = 84, .clicks = {}};
    coach.clicks.measured[static_cast<std::size_t>(Landmark::Ear)] = ear;
    return coach;
}

std::string faultOf(const std::string& text)
{
    const tests::ScratchFolder library;
    const auto file = library.file("coaches.json", text);
    const auto read = readCoaches(library.path());
    return read ? "no fault" : read.error().sentence;
}

} // namespace

TEST_CASE("a library without a record of coaches has none, and the defaults hold", "[store]")
{
    const tests::ScratchFolder library;
    const auto coaches = readCoaches(library.path());
    REQUIRE(coaches);
    CHECK(coaches->empty());
    CHECK(clickErrorsOf(*coaches, "R. Vale").of(Landmark::Hip) == defaultClickError(Landmark::Hip));
}

TEST_CASE("a coach's own errors are kept by name, a later repeat in place of the earlier",
          "[store]")
{
    const tests::ScratchFolder library;
    REQUIRE(keepCoach(coachNamed("R. Vale", 0.30), library.path()));
    REQUIRE(keepCoach(coachNamed("M. Osei", 0.55), library.path()));
    REQUIRE(keepCoach(coachNamed("R. Vale", 0.25), library.path()));
    const auto coaches = readCoaches(library.path());
    REQUIRE(coaches);
    CHECK(coaches->size() == 2);
    CHECK(clickErrorsOf(*coaches, "R. Vale").of(Landmark::Ear) == 0.25);
    CHECK(clickErrorsOf(*coaches, "M. Osei").of(Landmark::Ear) == 0.55);
    CHECK(clickErrorsOf(*coaches, "R. Vale").of(Landmark::Toe) == defaultClickError(Landmark::Toe));
    CHECK(clickErrorsOf(*coaches, "").of(Landmark::Ear) == defaultClickError(Landmark::Ear));
}

TEST_CASE("a record of coaches that cannot be is refused by its field", "[store][bad_input]")
{
    CHECK(faultOf("{}").find("version") != std::string::npos);
    CHECK(faultOf(R"({"version": 1, "coaches": [{"name": "R. Vale", "date": "2026-09-01",
                     "pairs": 3, "click_error_cm": {"ear": 0}}]})")
              .find("/coaches/0/click_error_cm/ear") != std::string::npos);
    CHECK(faultOf(R"({"version": 2, "coaches": []})").find("version 2") != std::string::npos);
}

TEST_CASE("a session's library is two folders up, with or without a slash at the end", "[store]")
{
    CHECK(libraryOf("/lib/ilse/2026-08-29") == "/lib");
    CHECK(libraryOf("/lib/ilse/2026-08-29/") == "/lib");
    CHECK(libraryOf("/lib/ilse/./2026-08-29") == "/lib");
}

TEST_CASE("coaches that do not follow their schema are told by the place", "[store]")
{
    const tests::ScratchFolder folder;
    (void)folder.file("coaches.json", R"({"version":1,"coaches":[{"name":"R. Vale",
        "date":"2026-08-29","pairs":12,"click_error_cm":{"hip":0.8,"tail":-1}}]})");
    const auto coaches = readCoaches(folder.path());
    REQUIRE(!coaches);
    CHECK(coaches.error().sentence.find("/coaches/0/click_error_cm/tail: ") != std::string::npos);
}
