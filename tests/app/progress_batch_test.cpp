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

TEST_CASE("progress tells the sample athlete's three filming days", "[batch]")
{
    const ScratchFolder folder;
    const auto csv = (folder / "progress.csv").string();
    const auto ran = batch({"progress", (sourceFolder() / "sample_clips/ilse-varga").string(),
                            "--out", csv, "--json"});
    CAPTURE(ran.err);
    REQUIRE(ran.exit == 0);
    const auto answer = json::parse(ran.out);
    CHECK(faultBySchema("progress", answer) == "");
    const auto found =
        std::find_if(answer["courses"].begin(), answer["courses"].end(), [](const json& course) {
            return course["measure"] == "foot_ahead" && course["condition"] == "fatigued";
        });
    REQUIRE(found != answer["courses"].end());
    REQUIRE((*found)["days"].size() == 3);
    // The story the clips were rendered from: what fades late in the run is mostly gone on day
    // three.
    CHECK((*found)["days"][2]["mean"] < (*found)["days"][0]["mean"]);
    CHECK(bytesOf(csv).starts_with("measure,unit,foot,condition,date,"));
}

TEST_CASE("a folder without filming days has no progress", "[batch]")
{
    const ScratchFolder folder;
    const auto ran = batch({"progress", folder.path().string()});
    CHECK(ran.exit == 1);
    CHECK(ran.out.empty());
    CHECK_THAT(ran.err, containing("holds no filming day"));
}
