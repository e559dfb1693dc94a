// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/document_schema.hpp"
#include "tests/app/program.hpp"
#include "tests/catch.hpp"
#include "tests/project_folders.hpp"
#include "tests/scratch_folder.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

using latemile::faultBySchema;
using namespace latemile::tests;
using nlohmann::json;

namespace {

void checkRefused(const std::vector<std::string>& words, const std::string& part)
{
    const auto ran = batch(words);
    CAPTURE(ran.out, ran.err);
    CHECK(ran.exit == 1);
    CHECK(ran.out.empty());
    CHECK(std::count(ran.err.begin(), ran.err.end(), '\n') == 1);
    CHECK_THAT(ran.err, containing(part));
}

} // namespace

TEST_CASE("one clip screened against itself shows no change and calls nothing confirmed",
          "[batch][propose]")
{
    const ScratchFolder folder;
    const auto clip = (folder / "clip.mp4").string();
    const auto made = run((binaryFolder() / "bin/latemile-make-clip").string(),
                          {clip, "--seed", "43", "--rate", "30", "--duration", "0.9"});
    INFO(made.err);
    REQUIRE(made.exit == 0);
    const auto out = folder / "screened";
    const auto ran = batch({"review", clip, clip, "--scene", (folder / "clip.SCENE.json").string(),
                            "--out", out.string(), "--json"});
    CAPTURE(ran.err);
    REQUIRE(ran.exit == 0);
    const auto answer = json::parse(ran.out);
    CHECK(faultBySchema("screening", answer) == "");
    CHECK(answer["unconfirmed"] == true);
    CHECK(answer["fresh_steps"] == answer["late_steps"]);
    CHECK(answer["fresh_steps"] > 0);
    int alike = 0;
    for (const auto& row : answer["rows"]) {
        CAPTURE(row.dump());
        alike += row["change"] == 0.0 ? 1 : 0;
        CHECK(row["looks"] != "changed");
        CHECK((row["change"].is_null() || row["change"] == 0.0));
    }
    CHECK(alike > 0); // there was something to tell
    for (const auto* name :
         {"fresh.MARKS.csv", "fresh.CONTACTS.csv", "fresh.READINGS.json", "late.MARKS.csv",
          "late.CONTACTS.csv", "late.READINGS.json", "SCREENING.json"}) {
        CAPTURE(name);
        CHECK(std::filesystem::exists(out / name));
    }
    const auto marks = bytesOf(out / "fresh.MARKS.csv");
    CHECK(marks.find(",proposed,") != std::string::npos);
    CHECK(marks.find(",placed,") == std::string::npos);
    // What was only screened gets no verdict afterwards.
    checkRefused(
        {"compare", (out / "fresh.READINGS.json").string(), (out / "late.READINGS.json").string()},
        "nobody confirmed");
}

TEST_CASE("two clips looked at before are screened without the network, and as their truth has it",
          "[batch][propose]")
{
    const ScratchFolder installed;
    const auto program = installedWithoutNetwork(installed);
    const ScratchFolder folder;
    const auto sample = sourceFolder() / "sample_clips/ilse-varga/2026-08-29";
    json truth;
    for (const std::string name : {"fresh", "late"}) {
        std::filesystem::copy_file(sample / "clips" / (name + ".mp4"), folder / (name + ".mp4"));
        std::filesystem::copy_file(sourceFolder() / "tests/core/propose/data" / (name + ".looks"),
                                   folder / (name + ".mp4.looks"));
        truth[name] = json::parse(bytesOf(sample / "clips" / (name + ".truth.json"))).at("summary");
    }
    const auto session = json::parse(bytesOf(sample / "session.json"));
    const auto scene =
        folder.file("SCENE.json", session.at("clips").at(0).at("scene").dump()).string();
    const auto ran = run(program, {"review", (folder / "fresh.mp4").string(),
                                   (folder / "late.mp4").string(), "--scene", scene, "--json"});
    CAPTURE(ran.err);
    REQUIRE(ran.exit == 0);
    const auto rows = json::parse(ran.out).at("rows");
    const auto checkChange = [&](const std::string& measure, const std::string& foot,
                                 double wanted) {
        CAPTURE(measure, foot, wanted);
        const auto row = std::ranges::find_if(rows, [&](const json& one) {
            return one["measure"] == measure && one["foot"] == foot;
        });
        REQUIRE(row != rows.end());
        CAPTURE(row->dump());
        CHECK((*row)["looks"] == "changed");
        CHECK(std::abs((*row)["change"].get<double>() - wanted) <=
              (*row)["half_width"].get<double>());
    };
    const auto change = [&](const std::string& part, const char* name) {
        return truth["late"][part][name].get<double>() - truth["fresh"][part][name].get<double>();
    };
    checkChange("step_rate", "both",
                truth["late"]["cadence_steps_per_min"].get<double>() -
                    truth["fresh"]["cadence_steps_per_min"].get<double>());
    checkChange("contact_time", "left", change("left", "contact_time_ms"));
    checkChange("foot_ahead", "left", change("left", "foot_ahead_of_hip_cm"));
    checkChange("shank_angle", "left", change("left", "shank_angle_deg"));
    checkChange("knee_flex_contact", "left", change("left", "knee_flexion_deg"));
    checkChange("trunk_lean_at_contact", "both", change("all", "trunk_lean_deg"));
}

TEST_CASE("review refuses what it cannot use before it looks at a picture", "[batch][propose]")
{
    const ScratchFolder folder;
    const auto side =
        folder.file("SIDE.json", R"({"version":1,"view":"left-side","travel":"left"})").string();
    const auto rear =
        folder.file("REAR.json", R"({"version":1,"view":"rear","travel":"left"})").string();
    checkRefused({"review", "a.mp4", "b.mp4", "--scene", rear}, "filmed from the side");
    checkRefused({"review", "missing.mp4", "b.mp4", "--scene", side}, "missing.mp4");
    checkRefused({"review", "a.mp4", "b.mp4", "--scene", "none.json"}, "none.json");
    CHECK(batch({"review", "a.mp4", "b.mp4"}).exit == 2);
    CHECK(batch({"review", "a.mp4", "b.mp4", "--scene", side, "--box", "1,2,3"}).exit == 2);
    const auto clip =
        (sourceFolder() / "sample_clips/ilse-varga/2026-08-29/clips/late.mp4").string();
    checkRefused({"review", clip, clip, "--scene", side, "--box", "5000,0,10,10"},
                 "lies outside the picture");
}
