// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/session.hpp"

#include "tests/catch.hpp"
#include "tests/scratch_folder.hpp"

#include <nlohmann/json.hpp>

#include <fstream>

using namespace latemile;
using nlohmann::json;

namespace {

constexpr auto today = "2026-08-29";

Athlete adultWith(Consent consent)
{
    Athlete athlete;
    athlete.code = "A7";
    athlete.consent = std::move(consent);
    return athlete;
}

json written(const std::filesystem::path& file)
{
    std::ifstream stream(file);
    return json::parse(stream);
}

} // namespace

TEST_CASE("pictures may leave only under a consent that holds today", "[consent]")
{
    Athlete nobody;
    CHECK(whyNoConsent(nobody, today).find("No consent") == 0);
    const Consent given{.givenBy = "Ada", .date = "2026-08-01"};
    CHECK(whyNoConsent(adultWith(given), today) == "");
    Consent open = given;
    open.until = "2026-08-29";
    CHECK(whyNoConsent(adultWith(open), today) == ""); // the last day still holds
    open.until = "2026-08-28";
    CHECK(whyNoConsent(adultWith(open), today).find("ended on 2026-08-28") != std::string::npos);
    Consent later = given;
    later.date = "2026-08-30";
    CHECK(whyNoConsent(adultWith(later), today).find("begins on") != std::string::npos);
}

TEST_CASE("for a minor only a guardian's consent counts", "[consent]")
{
    Athlete minor = adultWith({.givenBy = "Ada", .date = "2026-08-01"});
    minor.minor = true;
    CHECK(whyNoConsent(minor, today).find("guardian") != std::string::npos);
    minor.consent->asGuardian = true;
    CHECK(whyNoConsent(minor, today) == "");
}

TEST_CASE("consent and screening read back as written", "[consent]")
{
    const tests::ScratchFolder folder;
    Athlete athlete = adultWith(
        {.givenBy = "Bo Varga", .asGuardian = true, .date = "2026-08-01", .until = "2027-08-01"});
    athlete.minor = true;
    REQUIRE(writeAthlete(athlete, folder / "athlete.json"));
    CHECK(readAthlete(folder / "athlete.json").value() == athlete);

    Session session;
    session.date = today;
    session.screening = Screening{{"chest_pain"}, "told to see her doctor"};
    session.stills = {StepNumber{3}, {}, {Instant::ToeOff, Instant::MidStance}};
    session.nextRefilm = "2026-09-26";
    session.measuresAfterLooking = true;
    REQUIRE(writeSession(session, folder.path()));
    CHECK(readSession(folder.path()).value() == session);
    session.screening = Screening{}; // asked, and nothing ticked: not the same as not asked
    REQUIRE(writeSession(session, folder.path()));
    CHECK(readSession(folder.path()).value().screening.has_value());
}

TEST_CASE("fields of a later version survive being read and saved", "[consent]")
{
    const tests::ScratchFolder folder;
    const auto file = folder.file(
        "athlete.json", R"({"version": 1, "code": "A7", "club": {"name": "Hill"}, "bib": 12})");
    auto athlete = readAthlete(file).value();
    athlete.note = "new";
    REQUIRE(writeAthlete(athlete, file));
    const json kept = written(file);
    CHECK(kept["club"]["name"] == "Hill");
    CHECK(kept["bib"] == 12);
    CHECK(kept["note"] == "new");

    [[maybe_unused]] const auto path = folder.file("session.json", R"({"version": 1,
        "date": "2026-08-29", "weather": "dry", "clips": [{"file": "clips/a.mp4",
        "condition": "fresh", "lamp": "LED", "scene": {"view": "left-side", "travel": "left"}}]})");
    const auto session = readSession(folder.path()).value();
    REQUIRE(writeSession(session, folder.path()));
    const json again = written(folder / "session.json");
    CHECK(again["weather"] == "dry");
    CHECK(again["clips"][0]["lamp"] == "LED");
}

TEST_CASE("a document from before consent and screening still reads", "[consent]")
{
    const tests::ScratchFolder folder;
    const auto athlete =
        readAthlete(folder.file("athlete.json", R"({"version": 1, "code": "A7"})")).value();
    CHECK_FALSE(athlete.consent);
    CHECK_FALSE(athlete.minor);
    [[maybe_unused]] const auto path =
        folder.file("session.json", R"({"version": 1, "date": "2026-08-29", "clips": []})");
    CHECK_FALSE(readSession(folder.path()).value().screening);
}

TEST_CASE("a consent without a day is refused with its place", "[consent]")
{
    const tests::ScratchFolder folder;
    const auto read = readAthlete(folder.file(
        "athlete.json", R"({"code": "A7", "consent": {"given_by": "Ada", "date": "August"}})"));
    REQUIRE_FALSE(read);
    CHECK(read.error().sentence.find("athlete.json, /consent/date: ") != std::string::npos);
}

TEST_CASE("every red flag has an id of its own and words for sheet and coach", "[consent]")
{
    std::vector<std::string_view> ids;
    for (const RedFlag& flag : redFlags()) {
        CAPTURE(flag.id);
        CHECK(std::ranges::find(ids, flag.id) == ids.end());
        CHECK(flag.question.ends_with('?'));
        CHECK_FALSE(flag.name.empty());
        ids.push_back(flag.id);
    }
    CHECK(flagWords({{"fever", "own_word"}, {}}) == "fever or infection; own_word");
}
