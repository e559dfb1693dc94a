// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/session_changes.hpp"

#include "tests/catch.hpp"
#include "tests/core/store/edited_session.hpp"

using namespace latemile;
using namespace latemile::tests;

namespace {

/// Through text, as the journal does.
Session replayed(const Session& before, const Session& now)
{
    const auto changes = parseJson(changesBetween(before, now).dump(), "changes").value();
    return withChanges(before, JsonField(changes, "changes")).value();
}

const MarkKey someHip{{3}, BodySide::Near, Landmark::Hip};

} // namespace

TEST_CASE("every kind of edit is found, and makes the later session of the earlier", "[journal]")
{
    const Session before = dayWithMarks(20);
    Session now = before;
    auto& marking = now.clips[0].marking;
    std::string words;
    SECTION("nothing")
    {
        CHECK(changesBetween(before, now).is_null());
        CHECK(wordsForChanges(before, now).empty());
        return;
    }
    SECTION("a mark placed, one moved, one gone: no other is written")
    {
        marking.marks[{{400}, BodySide::Far, Landmark::Heel}] = {{1, 2}, Origin::Followed, 3.0};
        marking.marks[someHip].at.u += 0.25;
        marking.marks.erase({{4}, BodySide::Near, Landmark::Knee});
        const auto changes = changesBetween(before, now);
        CHECK(changes["clips"][0]["marks"].size() == 2);
        CHECK(changes["clips"][0]["no_marks"].size() == 1);
        CHECK(changes["clips"][0].size() == 3);
        words = "3 marks";
    }
    SECTION("the first and the last mark gone")
    {
        marking.marks.erase(marking.marks.begin());
        marking.marks.erase(std::prev(marking.marks.end()));
        words = "2 marks";
    }
    SECTION("contacts")
    {
        marking.stances.push_back({Foot::Left, Seconds{0.125}, Seconds{0.4}, Origin::Placed, {}});
        words = "contacts";
    }
    SECTION("a landmark that cannot be seen")
    {
        marking.unseen.insert(someHip);
        words = "contacts";
    }
    SECTION("the details and the scene of the second clip")
    {
        now.clips[1].shoes = "own";
        now.clips[1].scene.beltSpeed = 2.7;
        now.clips[1].unknown = R"({"later":[1]})";
        words = "the scene or details of a clip";
    }
    SECTION("notes, with a mark of the first clip")
    {
        now.note = "line\nline";
        now.nextRefilm = "2026-09-26";
        marking.marks.erase(someHip);
        words = "1 mark and notes and choices for the sheet";
    }
    SECTION("a clip came")
    {
        now.clips.push_back(now.clips[0]);
        now.clips[2].file = "clips/other.mp4";
        now.clips[2].marking = {};
        words = "the list of clips (3 clips) and the scene or details of a clip";
    }
    SECTION("the clips changed places")
    {
        std::swap(now.clips[0], now.clips[1]);
        CHECK(replayed(before, now) == now);
        return;
    }
    CHECK(replayed(before, now) == now);
    CHECK(replayed(now, before) == before);
    CHECK(wordsForChanges(before, now) == words);
}

TEST_CASE("a change that does not fit the session is refused", "[journal]")
{
    const Session day = dayWithMarks(2);
    const auto text = GENERATE(
        as<std::string>{}, R"({"clips":[{"clip":2,"marks":[]}]})", R"({"clips":[{"clip":-1}]})",
        R"({"clips":[{"clip":0,"marks":[{"frame":1.5}]}]})", R"({"clips":7})", R"({"whole":{}})",
        R"({"session":{"version":1}})", R"({"clips":[{"clip":0,"rest":{"file":"../x"}}]})",
        R"({"clips":[{"clip":0,"unseen":7}]})", R"([1])");
    CAPTURE(text);
    const auto changes = parseJson(text, "changes").value();
    CHECK_FALSE(withChanges(day, JsonField(changes, "changes")));
}
