// SPDX-License-Identifier: GPL-3.0-or-later
// The rendered clips of the sample athlete come with exact truth from a renderer that shares no
// code with ours: readings of perfect clicks must be what it says the picture shows.
#include "core/measures/readings.hpp"
#include "core/store/session.hpp"
#include "sample_clips/library/careful_coach.hpp"
#include "tests/catch.hpp"
#include "tests/project_folders.hpp"

#include <cmath>
#include <map>

using namespace latemile;

namespace {

std::filesystem::path athleteFolder()
{
    return tests::sourceFolder() / "sample_clips" / "ilse-varga";
}

/// A clip with perfect clicks, its scale the true one at the near hip, its plumb the picture's own
/// vertical, as the truth's own figures are given.
MarkedClip perfectClip(const SampleTruth& truth)
{
    MarkedClip clip;
    std::vector<Seconds> times;
    for (const auto& frame : truth.frames) {
        times.push_back(frame.time);
    }
    clip.index = FrameIndex(times);
    clip.conditions.captureRate = 120.0;
    clip.conditions.scene.view = View::LeftSide;
    clip.conditions.scene.travel = Travel::Left;
    clip.conditions.scene.beltSpeed = truth.speed;
    clip.conditions.scene.scale = ScaleLine{{0, 0}, {truth.pxPerCmAtNearHip * 200.0, 0}, 200.0};
    clip.marking = markedByCarefulCoach(truth, 1, 0.0);
    // The truth's figures are of the first frame itself.
    for (const auto& contact : truth.contacts) {
        if (contact.firstOn) {
            for (const auto landmark : {Landmark::Hip, Landmark::Knee, Landmark::Ankle}) {
                clip.marking.marks.erase({{contact.firstOn->value - 1}, BodySide::Near, landmark});
            }
        }
    }
    return clip;
}

struct Worst {
    std::map<std::string, double> of;
    void add(const std::string& what, double error)
    {
        of[what] = std::max(of[what], std::abs(error));
    }
};

void compareContact(Worst& worst, const Readings& readings,
                    const SampleTruth::ContactTruth& contact, int step)
{
    for (const auto& reading : readings.readings) {
        if (reading.step != StepNumber{step} || !reading.value) {
            continue;
        }
        const auto check = [&](const char* id, const std::optional<double>& truth) {
            if (reading.measure == id && truth) {
                worst.add(id, *reading.value - *truth);
            }
        };
        check("foot_ahead", contact.footAheadCm);
        check("shank_angle", contact.shankDegrees);
        check("knee_flex_contact", contact.kneeDegrees);
    }
}

} // namespace

TEST_CASE("perfect clicks on the sample clips read what the renderer's truth says",
          "[sample][outside]")
{
    Worst worst;
    int contacts = 0;
    for (const auto* clip :
         {"2026-08-29/clips/fresh", "2026-08-29/clips/late", "2026-09-26/clips/fresh",
          "2026-09-26/clips/late", "2026-10-24/clips/fresh", "2026-10-24/clips/late"}) {
        INFO(clip);
        const auto truth =
            readSampleTruth(athleteFolder() / (std::string(clip) + ".truth.json")).value();
        const auto marked = perfectClip(truth);
        const auto readings = readingsOf(marked).value();
        for (const auto& contact : truth.contacts) {
            for (const auto& step : readings.steps) {
                const double late = step.contact.count() - contact.contact;
                if (step.foot != contact.foot || std::abs(late) > 0.1) {
                    continue;
                }
                worst.add("contact event, s", late);
                if (step.toeOff) {
                    worst.add("toe-off event, s", step.toeOff->count() - contact.toeOff);
                }
                if (step.foot == Foot::Left) {
                    compareContact(worst, readings, contact, step.number.value);
                    ++contacts;
                }
            }
        }
    }
    CHECK(contacts > 40);
    const double halfFrame = 0.5 / 120.0;
    const std::map<std::string, double> bounds{{"contact event, s", halfFrame + 1e-4},
                                               {"toe-off event, s", halfFrame + 1e-4},
                                               {"foot_ahead", 0.3},
                                               {"shank_angle", 0.3},
                                               {"knee_flex_contact", 0.3}};
    CHECK(worst.of.size() == bounds.size());
    for (const auto& [what, error] : worst.of) {
        INFO(what << " worst error " << error);
        CHECK(error <= bounds.at(what));
    }
    for (const auto& [what, error] : worst.of) {
        WARN(what << ": worst error " << error);
    }
}
