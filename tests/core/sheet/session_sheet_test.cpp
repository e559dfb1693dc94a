// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sheet/sheet_content.hpp"
#include "core/sheet/sheet_cues.hpp"
#include "core/store/marked_clip.hpp"

#include "tests/catch.hpp"
#include "tests/project_folders.hpp"

#include <algorithm>

using namespace latemile;

namespace {

const std::filesystem::path athleteFolder = tests::sourceFolder() / "sample_clips/ilse-varga";
const std::filesystem::path firstVisit = athleteFolder / "2026-08-29";

struct Visit {
    Session session = *readSession(firstVisit);
    Athlete athlete = *readAthlete(athleteFolder / "athlete.json");
    std::vector<Cue> cues = *readCues(tests::sourceFolder() / "resources/cues.json");
    [[nodiscard]] Outcome<SheetContent> sheet(const SheetChoice& choice = {}) const
    {
        return sheetContent(firstVisit, session, athlete, cues, choice);
    }
};

} // namespace

TEST_CASE("the first visit's sheet tells the fading that the clips were made with", "[sheet]")
{
    // The clips' own description: late in the run contact is longer, the foot further ahead on a
    // straighter knee, head and trunk forward.
    const Visit visit;
    const auto content = visit.sheet();
    REQUIRE(content);
    REQUIRE(content->rows.size() == 6);
    REQUIRE(content->stills.size() == 4);
    for (const ComparisonRow& row : content->compared) {
        CAPTURE(row.measure);
        CHECK(row.verdict == Verdict::ClearChange);
        CHECK((*row.change > 0.0) == (row.measure != "knee_flex_contact"));
    }
    CHECK(content->cues.size() == 2);
    CHECK(content->seeClinician.empty());
    CHECK(content->athlete == visit.athlete.name);
    for (const Still& still : content->stills) {
        CHECK_FALSE(still.landmarks.empty());
        CHECK(still.measured.size() >= 2);
    }
}

TEST_CASE("both conditions show the near foot, fresh first, contact before mid-stance", "[sheet]")
{
    const Visit visit;
    const auto content = visit.sheet();
    REQUIRE(content);
    const auto& stills = content->stills;
    CHECK_FALSE(stills[0].fatigued);
    CHECK(stills[1].fatigued);
    CHECK(stills[0].instant == Instant::Contact);
    CHECK(stills[2].instant == Instant::MidStance);
    CHECK(stills[0].step == stills[2].step);
    CHECK(stills[2].frame > stills[0].frame);
}

TEST_CASE("pain in any clip turns the cues into the way to a clinician", "[sheet]")
{
    Visit visit;
    visit.session.clips.back().pain = true;
    visit.session.cues = {"stay_tall"};
    const auto content = visit.sheet();
    REQUIRE(content);
    CHECK(content->cues.empty());
    CHECK(content->seeClinician.find("licensed clinician") != std::string::npos);
}

TEST_CASE("a red flag ticked before filming goes before every cue", "[sheet]")
{
    Visit visit;
    visit.session.cues = {"stay_tall"};
    visit.session.screening = Screening{{"fainting"}, {}};
    const auto content = visit.sheet();
    REQUIRE(content);
    CHECK(content->cues.empty());
    CHECK(content->seeClinician.find("fainting") != std::string::npos);
    CHECK(content->seeClinician.find("licensed clinician") != std::string::npos);
    visit.session.screening = Screening{};
    CHECK(visit.sheet()->seeClinician.empty());
}

TEST_CASE("the cues of a sheet are told by id for the visit that follows", "[sheet]")
{
    Visit visit;
    const auto readings = [&](const char* condition) {
        return readingsOf(firstVisit, visit.session, *findClip(visit.session, condition), {}, {})
            .value();
    };
    const Readings fresh = readings("fresh");
    const Readings fatigued = readings("fatigued");
    const auto suggested = cuesOnSheet(visit.session, fresh, fatigued, visit.cues);
    const auto content = visit.sheet();
    REQUIRE(content);
    REQUIRE(suggested.size() == content->cues.size());
    for (std::size_t at = 0; at < suggested.size(); ++at) {
        const auto cue = std::ranges::find(visit.cues, suggested[at], &Cue::id);
        REQUIRE(cue != visit.cues.end());
        CHECK(cue->think == content->cues[at].think);
    }
    visit.session.cues = {"stay_tall"};
    CHECK(cuesOnSheet(visit.session, fresh, fatigued, visit.cues) == visit.session.cues);
    visit.session.screening = Screening{{"fever"}, {}};
    CHECK(cuesOnSheet(visit.session, fresh, fatigued, visit.cues).empty());
}

TEST_CASE("the stills are of the instants and steps the coach wished for", "[sheet]")
{
    Visit visit;
    visit.session.stills.instants = {Instant::MidStance};
    const auto usual = visit.sheet();
    REQUIRE(usual);
    REQUIRE(usual->stills.size() == 2);
    CHECK(usual->stills[1].fatigued);
    const StepNumber other{usual->stills[0].step.value == 3 ? 5 : 3};
    visit.session.stills.freshStep = other;
    const auto wished = visit.sheet();
    REQUIRE(wished);
    CHECK(wished->stills[0].step == other);
    CHECK(wished->stills[0].instant == Instant::MidStance);
    CHECK(wished->stills[1].step == usual->stills[1].step);
}

TEST_CASE("a number that nobody confirmed is drawn on no still", "[sheet]")
{
    Visit visit;
    visit.session.measures = {"foot_ahead", "head_forward"};
    const auto drawn = [&] {
        int count = 0;
        const auto content = visit.sheet();
        REQUIRE(content);
        for (const auto& still : content->stills) {
            count += static_cast<int>(
                std::ranges::count(still.measured, "foot_ahead", &StillMeasured::measure));
        }
        return count;
    };
    const int before = drawn();
    REQUIRE(before == 2); // fresh and fatigued
    for (SessionClip& clip : visit.session.clips) {
        for (auto& [key, mark] : clip.marking.marks) {
            if (clip.condition == "fatigued" && key.landmark == Landmark::Ankle) {
                mark.origin = Origin::Proposed;
            }
        }
    }
    CHECK(drawn() == 1);
}

TEST_CASE("a choice of measures made with the numbers in sight says so", "[sheet]")
{
    Visit visit;
    CHECK(visit.sheet()->errorWords.find("in sight") == std::string::npos);
    visit.session.measuresAfterLooking = true;
    CHECK(visit.sheet()->errorWords.find("in sight") != std::string::npos);
}

TEST_CASE("what the coach chose stands on the sheet, in that order", "[sheet]")
{
    Visit visit;
    visit.session.measures = {"contact_time", "foot_ahead"};
    visit.session.cues = {"stay_tall"};
    const auto content = visit.sheet({StepNumber{1}, {}, true});
    REQUIRE(content);
    REQUIRE(content->compared.size() == 2);
    CHECK(content->compared[0].measure == "contact_time");
    CHECK(content->cues.size() == 1);
    CHECK(content->athlete == visit.athlete.code);
}

TEST_CASE("a session without a fatigued clip is told so in one sentence", "[sheet]")
{
    Visit visit;
    std::erase_if(visit.session.clips,
                  [](const SessionClip& clip) { return clip.condition == "fatigued"; });
    const auto content = visit.sheet();
    REQUIRE_FALSE(content);
    CHECK(content.error().sentence.find("fatigued") != std::string::npos);
}

TEST_CASE("a clip without marks is told so by its file", "[sheet]")
{
    Visit visit;
    for (SessionClip& clip : visit.session.clips) {
        clip.marking.marks.clear();
    }
    const auto content = visit.sheet();
    REQUIRE_FALSE(content);
    CHECK(content.error().sentence.find("clips/") != std::string::npos);
}

TEST_CASE("every cue answers a measure of the table", "[sheet]")
{
    for (const Cue& cue : Visit().cues) {
        for (const auto& answer : cue.answers) {
            CAPTURE(cue.id, answer.measure);
            CHECK(findMeasure(answer.measure) != nullptr);
        }
    }
}

TEST_CASE("an own measure chosen for the sheet stands in its table and on its still", "[sheet]")
{
    // The same words as foot_ahead: the same numbers must stand in both rows.
    Visit visit;
    visit.session.measures = {"foot_ahead", "ankle_past_hip"};
    const auto own = OwnMeasures::from({{.id = "ankle_past_hip",
                                         .name = "Ankle past hip",
                                         .formula = "ankle ahead of hip at contact",
                                         .unit = Unit::Centimetre,
                                         .positive = "further ahead",
                                         .floor = 1.0}})
                         .value();
    const auto clipOf = [&](const char* condition) {
        const SessionClip& clip = *findClip(visit.session, condition);
        const auto marked = markedClipOf(firstVisit, visit.session, clip, {}).value();
        return SheetClip{firstVisit / clip.file, clip, marked.index,
                         readingsOf(marked, false, own).value()};
    };
    const auto content =
        sheetContent(clipOf("fresh"), clipOf("fatigued"), visit.session, visit.athlete, visit.cues);
    REQUIRE(content);
    REQUIRE(content->rows.size() == 2);
    CHECK(content->rows[1].name == "Ankle past hip");
    CHECK(content->rows[1].fresh == content->rows[0].fresh);
    CHECK(content->rows[1].change == content->rows[0].change);
    const auto& drawn = content->stills.front().measured;
    CHECK(std::ranges::any_of(drawn, [](const StillMeasured& measured) {
        return measured.measure == "ankle_past_hip" && !measured.label.empty();
    }));
    CHECK(toldIn(*content, Lengths::Inches).rows[1].unit == "in");
}
