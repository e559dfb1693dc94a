// SPDX-License-Identifier: GPL-3.0-or-later
// Finding contacts on real running at 3.0 m/s: Hamner & Delp (2013), J Biomech 46:780, subject 04
// of the public data set: markers on heel and toe at 100/s, events where the vertical force under
// each foot passes 50 N. The public recordings are low-pass filtered, which moves what a marker
// shows by about 10 ms and blunts every landing, so a contact is asked for within 20 ms and a
// toe-off within 30 ms. The recordings are others' data: read where they lie beside the project, no
// part of it.
#include "core/csv.hpp"
#include "core/follow/contact_finder.hpp"
#include "core/marks/marks_file.hpp"
#include "tests/catch.hpp"
#include "tests/project_folders.hpp"

#include <cmath>
#include <filesystem>
#include <iostream>

using namespace latemile;

namespace {

std::filesystem::path recording()
{
    const auto beside = tests::sourceFolder().parent_path();
    return beside / "shared" / "reference" / "mocap" / "treadmill_subject04_3mps";
}

/// The recording has no clip: its frames are those its marks name, 100 a second.
FrameIndex framesOfRecording()
{
    const auto marks = CsvTable::read(recording() / "MARKS.csv").value();
    double last = 0.0;
    for (const auto& row : marks.rows()) {
        last = std::max(last, row.number("frame").value());
    }
    std::vector<Seconds> times;
    for (int i = 0; i <= static_cast<int>(last); ++i) {
        times.emplace_back(i / 100.0);
    }
    return FrameIndex(times);
}

} // namespace

TEST_CASE("contacts of real running are found where the force says", "[follow][outside]")
{
    if (!std::filesystem::exists(recording())) {
        std::cerr << "skipped: the recording of real running does not lie beside the project\n";
        return;
    }
    const auto index = framesOfRecording();
    Marking marking;
    marking.marks = readMarks(recording() / "MARKS.csv", index, 4000, 4000).value();
    const auto scene = readScene(recording() / "SCENE.json").value();
    const auto found = findContacts(marking, index, scene);
    REQUIRE(found);
    const auto truth = CsvTable::read(recording() / "events_from_force.csv").value();
    std::size_t matched = 0;
    for (const auto& row : truth.rows()) {
        const double contact = row.number("contact_50N_s").value();
        const double toeOff = row.number("toe_off_50N_s").value();
        if (contact < 0.05) {
            continue; // on the clip's first frame: nobody saw the foot come down
        }
        for (const auto& stance : found->stances) {
            if (nameOf(stance.foot) == row.text("foot") &&
                std::abs(stance.contact.count() - contact) < 0.1) {
                CAPTURE(contact, stance.contact.count(), stance.se->count());
                ++matched;
                CHECK(std::abs(stance.contact.count() - contact) < 0.020);
                REQUIRE(stance.toeOff);
                CHECK(std::abs(stance.toeOff->count() - toeOff) < 0.030);
            }
        }
    }
    CHECK(matched == truth.rows().size() - 1);
    CHECK(found->stances.size() == matched);
    CHECK(found->remarks.empty());
}
