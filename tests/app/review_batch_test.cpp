// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/document_schema.hpp"
#include "tests/app/program.hpp"
#include "tests/catch.hpp"
#include "tests/project_folders.hpp"
#include "tests/scratch_folder.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>

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
    checkRefused(
        {"review", clip, clip, "--scene", side, "--box", "5000,0,10,10"},
        "lies outside the picture");
}
