// SPDX-License-Identifier: GPL-3.0-or-later
// Own measures and explanations, as a script would ask for them.
#include "core/document_schema.hpp"
#include "tests/app/marked_clip_files.hpp"
#include "tests/app/program.hpp"
#include "tests/catch.hpp"
#include "tests/project_folders.hpp"
#include "tests/scratch_folder.hpp"

#include <algorithm>

using latemile::faultBySchema;
using namespace latemile::tests;
using nlohmann::json;

namespace {

json ownDocument()
{
    return {{"version", 1},
            {"measures",
             {{{"id", "ankle_past_hip"},
               {"name", "Ankle past hip"},
               {"formula", "ankle ahead of hip at contact"},
               {"unit", "cm"},
               {"positive", "further ahead"},
               {"floor", 1.5}},
              {{"id", "thigh_share"},
               {"name", "Thigh over leg"},
               {"formula", "100 * (distance hip to knee at contact) / leg"},
               {"unit", "%"},
               {"positive", "longer"},
               {"floor", 1.0},
               {"decimals", 0}}}}};
}

Ran measured(const MarkedClipFiles& files, const json& own, std::vector<std::string> more)
{
    auto words = files.measureArguments();
    const auto file = files.folder.file("own_measures.json", own.dump()).string();
    words.insert(words.end(), {"--own", file});
    words.insert(words.end(), more.begin(), more.end());
    return batch(words);
}

json meanOf(const json& readings, const std::string& measure)
{
    for (const auto& row : readings["summary"]) {
        if (row["measure"] == measure) {
            return row;
        }
    }
    return {};
}

} // namespace

TEST_CASE("own measures stand among the readings like the others", "[batch][outside]")
{
    // By hand: 40 px of 0.5 cm between ankle and hip at contact, see marked_clip_files.hpp.
    const MarkedClipFiles files;
    const auto ran = measured(files, ownDocument(), {"--json"});
    INFO(ran.err);
    REQUIRE(ran.exit == 0);
    const auto readings = json::parse(ran.out);
    CHECK(faultBySchema("readings", readings) == "");
    CHECK(faultBySchema("own_measures", ownDocument()) == "");
    CHECK(meanOf(readings, "ankle_past_hip")["mean"].get<double>() == Approx(20.0).margin(0.01));
    CHECK(meanOf(readings, "ankle_past_hip")["unit"] == "cm");
    CHECK(readings["own_measures"].size() == 2);
    CHECK(measured(files, ownDocument(), {}).out.find("Ankle past hip") != std::string::npos);
}

TEST_CASE("own measures are compared by their own definitions", "[batch]")
{
    const MarkedClipFiles files;
    const auto file = (files.folder / "readings.json").string();
    REQUIRE(measured(files, ownDocument(), {"--out", file}).exit == 0);
    const auto rows = json::parse(batch({"compare", file, file, "--json"}).out)["rows"];
    const auto own = std::find_if(rows.begin(), rows.end(), [](const json& row) {
        return row["measure"] == "ankle_past_hip";
    });
    REQUIRE(own != rows.end());
    CHECK((*own)["unit"] == "cm");
    CHECK(batch({"compare", file, file}).out.find("Ankle past hip") != std::string::npos);
}

TEST_CASE("a session is read with the own measures of its library", "[batch]")
{
    const ScratchFolder library;
    const auto visit = library.path() / "ilse-varga" / "2026-08-29";
    const auto from = sourceFolder() / "sample_clips" / "ilse-varga";
    std::filesystem::create_directories(visit);
    std::filesystem::copy(from / "2026-08-29", visit, std::filesystem::copy_options::recursive);
    std::filesystem::copy(from / "athlete.json", library.path() / "ilse-varga");
    auto own = ownDocument();
    (void)library.file("own_measures.json", own.dump());
    const auto measuredFresh = batch({"measure", visit.string(), "--condition", "fresh", "--json"});
    INFO(measuredFresh.err);
    REQUIRE(measuredFresh.exit == 0);
    const auto readings = json::parse(measuredFresh.out);
    // The same words as the built-in measure's.
    CHECK(meanOf(readings, "ankle_past_hip")["mean"].get<double>() ==
          Approx(meanOf(readings, "foot_ahead")["mean"].get<double>()));
    const auto course = batch({"progress", visit.parent_path().string()});
    CHECK_THAT(course.out, containing("Ankle past hip"));

    own["version"] = 2;
    (void)library.file("own_measures.json", own.dump());
    const auto refused = batch({"measure", visit.string(), "--condition", "fresh", "--json"});
    CHECK(refused.exit == 1);
    CHECK_THAT(refused.err, containing("own_measures.json") && containing("version 2"));
}

TEST_CASE("own measures that cannot be read are refused where the fault stands", "[batch]")
{
    const MarkedClipFiles files;
    const auto refused = [&](auto change) {
        auto own = ownDocument();
        change(own["measures"][0]);
        const auto ran = measured(files, own, {"--json"});
        CHECK(ran.exit == 1);
        CHECK(ran.out.empty());
        CHECK(std::count(ran.err.begin(), ran.err.end(), '\n') == 1);
        return ran.err;
    };
    CHECK_THAT(refused([](json& m) { m["formula"] = "anke ahead of hip at contact"; }),
               containing("own_measures.json") && containing("'ankle_past_hip'") &&
                   containing("column 1: 'anke' is no landmark"));
    CHECK_THAT(refused([](json& m) { m["unit"] = "deg"; }), containing("its unit is cm"));
    CHECK_THAT(refused([](json& m) { m["unit"] = "inch"; }), containing("/measures/0"));
    CHECK_THAT(refused([](json& m) { m["id"] = "foot_ahead"; }), containing("choose another"));
    CHECK_THAT(refused([](json& m) { m["floor"] = 0; }), containing("floor"));
    CHECK_THAT(refused([](json& m) { m.erase("positive"); }), containing("positive"));
}

TEST_CASE("a reading is explained with all it came from", "[batch]")
{
    const MarkedClipFiles files;
    const auto ran =
        measured(files, ownDocument(), {"--explain", "foot_ahead", "--step", "1", "--json"});
    INFO(ran.err);
    REQUIRE(ran.exit == 0);
    const auto it = json::parse(ran.out);
    CHECK(faultBySchema("explanation", it) == "");
    CHECK(it["value"].get<double>() == Approx(20.0).margin(0.01));
    double shares = 0.0;
    for (const auto& source : it["sources"]) {
        shares += source["share"].get<double>();
    }
    CHECK(shares == Approx(1.0));
    CHECK_FALSE(it["marks"].empty());
    CHECK_FALSE(it["remedies"].empty());

    const auto text = measured(files, ownDocument(), {"--explain", "ankle_past_hip"}).out;
    CHECK_THAT(text, containing("Mean of ") && containing("Where the error comes from") &&
                         containing("What would help most"));
}

TEST_CASE("an explanation that cannot be had says why", "[batch]")
{
    const MarkedClipFiles files;
    const auto unknown = measured(files, ownDocument(), {"--explain", "speed_of_light"});
    CHECK(unknown.exit == 1);
    CHECK_THAT(unknown.err, containing("no measure 'speed_of_light'"));
    const auto beyond = measured(files, ownDocument(), {"--explain", "foot_ahead", "--step", "99"});
    CHECK(beyond.exit == 1);
    CHECK_THAT(beyond.err, containing("no step 99"));
    const auto behind = measured(files, ownDocument(), {"--explain", "pelvic_drop", "--json"});
    REQUIRE(behind.exit == 0);
    CHECK(json::parse(behind.out)["value"].is_null());
    CHECK(faultBySchema("explanation", json::parse(behind.out)) == "");
    CHECK(measured(files, ownDocument(), {"--step", "1"}).exit == 2);
}
