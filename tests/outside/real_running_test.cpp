// SPDX-License-Identifier: GPL-3.0-or-later
// Real running on a treadmill at 2.0 m/s: Hamner & Delp (2013), Muscle contributions to fore-aft
// and vertical body mass center accelerations over a range of running speeds, J Biomech 46:780 -
// subject 01 of the public data set. Expected readings were derived from its markers and forces by
// a script that shares no code with ours. The recordings are others' data: they are read where they
// lie beside the project and are no part of it.
#include "core/csv.hpp"
#include "core/measures/measure.hpp"
#include "tests/catch.hpp"
#include "tests/project_folders.hpp"

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <iostream>

using namespace latemile;

namespace {

std::filesystem::path recording()
{
    const auto beside = tests::sourceFolder().parent_path();
    return beside / "shared" / "reference" / "mocap" / "treadmill_subject01_2mps_right";
}

std::string quoted(const std::filesystem::path& path)
{
    return "'" + path.string() + "'";
}

/// latemile-batch measure on the recording's own exchange files.
CsvTable measured()
{
    const auto folder = recording();
    const auto out = tests::binaryFolder() / "real_running_readings.csv";
    const auto program = tests::binaryFolder() / "bin" / "latemile-batch";
    const auto command = quoted(program) + " measure " + quoted(folder / "clip.mp4") + " --marks " +
                         quoted(folder / "MARKS.csv") + " --contacts " +
                         quoted(folder / "CONTACTS.csv") + " --scene " +
                         quoted(folder / "SCENE.json") + " --athlete " +
                         quoted(folder / "athlete.json") + " --out " + quoted(out);
    REQUIRE(std::system(command.c_str()) == 0);
    return CsvTable::read(out).value();
}

/// The recording's own names of two readings of one measure.
std::string idOf(const CsvRow& expected)
{
    const auto id = expected.text("measure");
    return id == "hand_height_max"   ? "hand_height"
           : id == "hand_height_min" ? "hand_height_lowest"
                                     : id;
}

const CsvRow* rowOf(const CsvTable& readings, const CsvRow& expected)
{
    for (const auto& row : readings.rows()) {
        const bool sameStep = row.text("step") == expected.text("step");
        if (row.text("measure") == idOf(expected) && sameStep) {
            return &row;
        }
    }
    return nullptr;
}

} // namespace

TEST_CASE("readings of real running lie within the tolerances of an independent analysis",
          "[measures][outside]")
{
    if (!std::filesystem::exists(recording())) {
        std::cout << "skipped: no recording at " << recording() << '\n';
        return;
    }
    const auto readings = measured();
    const auto expected = CsvTable::read(recording() / "expected.csv").value();
    int compared = 0;
    double worst = 0.0;
    for (const auto& row : expected.rows()) {
        if (!findMeasure(idOf(row))) {
            continue; // belt_ratio_toe: one of the checks, not a measure
        }
        INFO(row.text("measure") << " step " << row.text("step"));
        const auto* reading = rowOf(readings, row);
        REQUIRE(reading);
        const double error = reading->number("value").value() - row.number("value").value();
        CHECK(std::abs(error) <= row.number("tolerance").value());
        worst = std::max(worst, std::abs(error) / row.number("tolerance").value());
        ++compared;
    }
    CHECK(compared == 89);
    std::cout << compared << " readings of real running compared, the farthest at " << worst
              << " of its tolerance\n";
}

TEST_CASE("head measures of a recording without an ear are empty and say why",
          "[measures][outside]")
{
    if (!std::filesystem::exists(recording())) {
        std::cout << "skipped: no recording at " << recording() << '\n';
        return;
    }
    int empty = 0;
    const auto readings = measured();
    for (const auto& row : readings.rows()) {
        if (row.text("measure") == "head_forward") {
            CHECK(row.isEmpty("value"));
            CHECK_THAT(row.text("reason"), containing("ear not marked"));
            ++empty;
        }
    }
    CHECK(empty == 6);
}
