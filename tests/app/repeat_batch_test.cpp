// SPDX-License-Identifier: GPL-3.0-or-later
// Two markings of one clip set against each other, as a script would ask for it.
#include "core/document_schema.hpp"
#include "tests/app/marked_clip_files.hpp"
#include "tests/app/program.hpp"
#include "tests/catch.hpp"

#include <algorithm>
#include <cmath>

using latemile::faultBySchema;
using namespace latemile::tests;
using nlohmann::json;

namespace {

/// The marks once more, the ankle (at x = 120 px) 2 px further forward, which is to the left.
std::string shiftedMarks(const MarkedClipFiles& files)
{
    auto lines = markLines();
    for (auto& line : lines) {
        const auto at = line.find(",ankle,120");
        if (at != std::string::npos) {
            line.replace(at, 10, ",ankle,118");
        }
    }
    return files.folder.file("AGAIN.csv", joined(lines)).string();
}

std::vector<std::string> repeatWords(const MarkedClipFiles& files, const std::string& again)
{
    return {"repeat", files.clip,   "--marks",      files.marks, "--again",
            again,    "--contacts", files.contacts, "--scene",   files.scene};
}

json rowOf(const json& rows, const std::string& key, const std::string& name)
{
    const auto row =
        std::find_if(rows.begin(), rows.end(), [&](const json& it) { return it[key] == name; });
    return row == rows.end() ? json() : *row;
}

} // namespace

TEST_CASE("two markings are set against each other by hand's arithmetic", "[batch]")
{
    const MarkedClipFiles files;
    auto words = repeatWords(files, shiftedMarks(files));
    words.push_back("--json");
    const auto ran = batch(words);
    INFO(ran.err);
    REQUIRE(ran.exit == 0);
    const auto result = json::parse(ran.out);
    CHECK(faultBySchema("repeat", result) == "");
    // All differences across are 120 - 118 = 2 px and none is down: within-target SD 2 / sqrt(2),
    // one click 0.5 cm x sqrt((2 + 0) / 2).
    const auto ankle = rowOf(result["landmarks"], "landmark", "ankle");
    CHECK(ankle["across_px"]["bias"]["value"].get<double>() == Approx(2.0));
    CHECK(ankle["across_px"]["within_target_sd"].get<double>() == Approx(std::sqrt(2.0)));
    CHECK(ankle["down_px"]["within_target_sd"].get<double>() == Approx(0.0).margin(1e-9));
    CHECK(ankle["click_error_cm"].get<double>() == Approx(0.5));
    // The foot is 20 cm ahead in the first marking, 21 cm in the second.
    const auto ahead = rowOf(result["measures"], "measure", "foot_ahead");
    CHECK(ahead["agreement"]["bias"]["value"].get<double>() == Approx(-1.0).margin(1e-6));
    const auto table = batch(repeatWords(files, shiftedMarks(files)));
    CHECK(table.exit == 0);
    CHECK(table.out.find("ankle") != std::string::npos);
    CHECK(table.out.find("nan") == std::string::npos);
}

TEST_CASE("markings that have nothing in common are refused", "[batch][bad_input]")
{
    const MarkedClipFiles files;
    const auto none = files.folder.file("NONE.csv", markLines().front() + "\n").string();
    const auto ran = batch(repeatWords(files, none));
    CHECK(ran.exit == 1);
    CHECK(ran.out.empty());
    CHECK(ran.err.find("no mark in common") != std::string::npos);
    const auto missing = batch(repeatWords(files, (files.folder / "missing.csv").string()));
    CHECK(missing.exit == 1);
    CHECK(missing.err.find("missing.csv") != std::string::npos);
    CHECK(batch({"repeat", files.clip, "--marks", files.marks}).exit == 2);
}
