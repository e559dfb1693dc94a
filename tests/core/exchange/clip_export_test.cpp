// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/csv.hpp"
#include "core/exchange/clip_export.hpp"
#include "core/exchange/data_dictionary.hpp"
#include "core/exchange/marks_import.hpp"
#include "core/marks/marks_file.hpp"
#include "core/measures/measure.hpp"
#include "tests/catch.hpp"
#include "tests/core/measures/worked_example.hpp"
#include "tests/scratch_folder.hpp"

#include <set>

using namespace latemile;
using namespace latemile::testing;
using namespace latemile::tests;

namespace {

ClipFacts exampleFacts()
{
    ClipFacts facts;
    facts.width = 1920;
    facts.height = 1080;
    facts.duration = Seconds{0.9};
    return facts;
}

ClipExport exported(const MarkedClip& clip)
{
    const auto readings = readingsOf(clip);
    REQUIRE(readings);
    auto made = exportOf(clip, exampleFacts(), *readings, "fresh");
    REQUIRE(made);
    return *made;
}

} // namespace

TEST_CASE("an export comes back without loss", "[exchange]")
{
    auto clip = exampleClip();
    clip.marking.marks.at({{113}, BodySide::Near, Landmark::Hip}).origin = Origin::Followed;
    clip.marking.stances.back().origin = Origin::Proposed;
    const ScratchFolder folder;
    const auto made = exported(clip);
    CHECK(made.leftOut.empty());
    REQUIRE(writeExport(made, folder / "out"));
    for (const auto* name : {"out/fresh-marks.csv", "out/fresh-keypoints.json"}) {
        const auto marks = importMarks(folder / name, clip.index, 1920, 1080);
        REQUIRE(marks);
        CHECK(*marks == clip.marking.marks);
    }
    const auto stances = readContacts(folder / "out/fresh-contacts.csv", clip.index);
    REQUIRE(stances);
    CHECK(*stances == clip.marking.stances);
    const auto scene = readScene(folder / "out/fresh-scene.json");
    REQUIRE(scene);
    CHECK(*scene == clip.conditions.scene);
}

TEST_CASE("what a file cannot hold is left out and told, the rest goes out", "[exchange]")
{
    auto clip = exampleClip();
    clip.conditions.scene.scale.reset();
    clip.athlete.legLengthCm.reset();
    const auto made = exported(clip);
    REQUIRE(made.leftOut.size() == 2);
    CHECK(made.leftOut[0].find("fresh-points.trc is not written: ") == 0);
    CHECK(made.files.size() == 7);
}

TEST_CASE("an export tells nobody's name and no day", "[exchange][privacy]")
{
    auto clip = exampleClip();
    clip.athlete.name = "Ilse Varga";
    clip.conditions.date = "2026-08-29";
    clip.conditions.file = "/home/coach/Ilse Varga/2026-08-29/clips/fresh.mp4";
    for (const auto& file : exported(clip).files) {
        CAPTURE(file.name);
        CHECK(file.bytes.find("Ilse") == std::string::npos);
        CHECK(file.bytes.find("2026-08-29") == std::string::npos);
        CHECK(file.bytes.find("/home") == std::string::npos);
    }
}

TEST_CASE("the dictionary explains every column and every measure", "[exchange]")
{
    const auto table = CsvTable::parse(dataDictionary(), "dictionary.csv");
    REQUIRE(table);
    std::set<std::string> told;
    for (const auto& row : table->rows()) {
        told.insert(row.text("table") + " " + row.text("name"));
        CHECK_FALSE(row.text("meaning").empty());
    }
    for (const auto& measure : measureTable()) {
        CHECK(told.contains("measure " + std::string(measure.id)));
    }
    const auto made = exported(exampleClip());
    for (const auto& file : made.files) {
        if (!file.name.ends_with(".csv") || file.name == "dictionary.csv") {
            continue;
        }
        const auto kind = file.name.substr(6, file.name.size() - 10); // "fresh-marks.csv"
        std::istringstream columns(file.bytes.substr(0, file.bytes.find_first_of("\r\n")));
        for (std::string column; std::getline(columns, column, ',');) {
            CAPTURE(kind, column);
            CHECK(told.contains(kind + " " + column));
        }
    }
}
