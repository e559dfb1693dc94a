// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/compare/cues.hpp"

#include "tests/catch.hpp"
#include "tests/project_folders.hpp"

#include <filesystem>
#include <fstream>
#include <set>
#include <string>

using namespace latemile;

namespace {

const std::filesystem::path library = tests::sourceFolder() / "resources/cues.json";

ComparisonRow row(std::string measure, double change, double halfWidth,
                  Verdict verdict = Verdict::ClearChange)
{
    ComparisonRow made;
    made.measure = std::move(measure);
    made.change = change;
    made.halfWidth = halfWidth;
    made.verdict = verdict;
    made.sentence = made.measure + " changed";
    return made;
}

Cue cue(std::string id, std::vector<Cue::Answers> answers)
{
    return {std::move(id), "think", "why", "drill", "", std::move(answers)};
}

/// The error of a cue library with this text.
std::string faultOf(const std::string& text)
{
    const auto file = tests::binaryFolder() / "cues_fault.json";
    std::ofstream(file) << text;
    const auto cues = readCues(file);
    std::filesystem::remove(file);
    return cues ? std::string() : cues.error().sentence;
}

} // namespace

TEST_CASE("the cue library is whole and short enough for its card", "[cues]")
{
    const auto cues = readCues(library);
    REQUIRE(cues);
    CHECK(cues->size() >= 8);
    CHECK(cues->size() <= 12);
    for (const Cue& one : *cues) {
        CAPTURE(one.id);
        CHECK(one.think.size() <= 60); // one line on the sheet's card
        CHECK(one.why.size() <= 120);
        CHECK(one.drill.size() <= 200);
        CHECK(one.caution.size() <= 110);
        CHECK_FALSE(one.caution.empty());
    }
}

TEST_CASE("no cue names an injury, a diagnosis or a promise", "[cues]")
{
    // common practice, no source: a coach's cue speaks of movement, never of disease or of cure.
    const auto cues = readCues(library);
    REQUIRE(cues);
    for (const Cue& one : *cues) {
        const std::string all = one.think + ' ' + one.why + ' ' + one.drill + ' ' + one.caution;
        for (const char* word : {"injur", "diagnos", "prevent", "cure", "heal", "syndrome",
                                 "tendinitis", "weakness", "wrong", "bad "}) {
            CAPTURE(one.id, word);
            CHECK(all.find(word) == std::string::npos);
        }
    }
}

TEST_CASE("every default change of a tiring runner finds a cue", "[cues]")
{
    // The directions of fading form the review is made for: contact longer and step rate lower as
    // in the studies named in tests/outside/data/group_values.csv; the others are common practice,
    // no source.
    const auto cues = readCues(library);
    REQUIRE(cues);
    for (const auto& [measure, change] : {std::pair{"head_forward", 1.0},
                                          {"trunk_lean", 1.0},
                                          {"hips_behind", 1.0},
                                          {"foot_ahead", 1.0},
                                          {"knee_flex_contact", -1.0},
                                          {"contact_time", 1.0},
                                          {"step_rate", -1.0}}) {
        CAPTURE(measure);
        CHECK(fittingCues({{row(measure, change, 0.5)}}, *cues).size() == 1);
    }
}

TEST_CASE("without a clear change no cue is suggested", "[cues]")
{
    const std::vector<Cue> cues{cue("one", {{"foot_ahead", true}})};
    CHECK(fittingCues({{row("foot_ahead", 2.0, 3.0, Verdict::WithinError)}}, cues).empty());
    CHECK(fittingCues({{row("foot_ahead", 2.0, 1.0, Verdict::NotComparable)}}, cues).empty());
    CHECK(fittingCues({{row("foot_ahead", -2.0, 1.0)}}, cues).empty());
}

TEST_CASE("the cue that answers most clear changes comes first, then one with news", "[cues]")
{
    const std::vector<Cue> cues{cue("head", {{"head_forward", true}}),
                                cue("also_foot", {{"foot_ahead", true}}),
                                cue("reach", {{"foot_ahead", true}, {"shank_angle", true}}),
                                cue("hips", {{"hips_behind", true}})};
    const Comparison comparison{{row("head_forward", 1.0, 0.5), row("hips_behind", 2.0, 1.0),
                                 row("foot_ahead", 3.0, 1.0), row("shank_angle", 3.0, 2.0)}};
    const auto fitting = fittingCues(comparison, cues);
    REQUIRE(fitting.size() == 2);
    CHECK(fitting[0].cue->id == "reach");
    CHECK(fitting[0].because == "foot_ahead changed"); // 3 errors large against 1.5
    CHECK(fitting[1].cue->id == "head"); // "also_foot" would tell the same change again
}

TEST_CASE("a measure told for left, right and both counts once", "[cues]")
{
    const std::vector<Cue> cues{cue("time", {{"contact_time", true}}),
                                cue("two", {{"foot_ahead", true}, {"shank_angle", true}})};
    const Comparison comparison{{row("foot_ahead", 3.0, 1.0), row("shank_angle", 3.0, 1.0),
                                 row("contact_time", 9.0, 1.0), row("contact_time", 8.0, 1.0),
                                 row("contact_time", 9.0, 1.0)}};
    CHECK(fittingCues(comparison, cues).front().cue->id == "two");
}

TEST_CASE("a damaged cue library is refused in one sentence that says where", "[cues]")
{
    CHECK(faultOf("not json").find("cues_fault.json") != std::string::npos);
    CHECK(faultOf(R"({"version":2,"cues":[]})").find("version") != std::string::npos);
    CHECK(faultOf(R"({"version":1})").find("cues") != std::string::npos);
    CHECK(faultOf(R"({"version":1,"cues":[3]})").find("/cues/0") != std::string::npos);
    const std::string start = R"({"version":1,"cues":[{"id":"a","think":"t","why":"w",)";
    CHECK(faultOf(start + R"("answers":[]}]})").find("drill") != std::string::npos);
    CHECK(faultOf(start + R"("drill":"","answers":[]}]})").find("\"drill\" is empty") !=
          std::string::npos);
    CHECK(faultOf(start + R"("drill":"d","answers":[]}]})").find("no change") != std::string::npos);
    CHECK(faultOf(start + R"("drill":"d","answers":[{"measure":"m","change":"up"}]}]})")
              .find("\"up\"") != std::string::npos);
    CHECK_FALSE(faultOf(std::string(100000, '[')).empty());
    CHECK_FALSE(readCues(library.parent_path() / "absent.json"));
}
