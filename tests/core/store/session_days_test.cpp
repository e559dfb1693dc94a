// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/session_days.hpp"

#include "core/store/session.hpp"
#include "tests/catch.hpp"
#include "tests/core/store/edited_session.hpp"
#include "tests/scratch_folder.hpp"

using namespace latemile;
using namespace latemile::tests;

TEST_CASE("the days of a session are read as the whole session has them", "[store]")
{
    const ScratchFolder folder;
    auto day = dayWithMarks(40);
    day.note = R"("date": "1999-01-01")";
    day.unknown = R"({"later":{"date":"1999-01-01","next_refilm":"1999-01-02"}})";
    day.nextRefilm = GENERATE("", "2026-09-26");
    REQUIRE(writeSession(day, folder.path()));
    const auto days = sessionDaysOf(folder.path());
    REQUIRE(days);
    CHECK(days->date == "2026-08-29");
    CHECK(days->nextRefilm == day.nextRefilm);
}

TEST_CASE("what is no session gives no days, and does no harm", "[store][refusals]")
{
    const ScratchFolder folder;
    CHECK_FALSE(sessionDaysOf(folder.path()));
    for (const auto& text : {std::string(), std::string("{\"date\":\"2026-08-29\""),
                             std::string(100'000, '['), std::string("\xFF\xFE")}) {
        (void)folder.file("session.json", text);
        CHECK_FALSE(sessionDaysOf(folder.path()));
    }
    (void)folder.file("session.json", R"({"date":{"date":"2026-08-29"},"next_refilm":[3]})");
    CHECK(sessionDaysOf(folder.path())->date.empty());
}
