// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/marks/marks_file.hpp"
#include "core/measures/readings.hpp"
#include "core/scene/scene.hpp"
#include "sample_clips/maker/render_clip.hpp"
#include "sample_clips/maker/truth_files.hpp"
#include "tests/catch.hpp"
#include "tests/project_folders.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>

using namespace latemile::maker;

namespace {

/// The exchange files of a clip that is known exactly, read by the core.
latemile::MarkedClip markedFrom(const Truth& truth)
{
    const auto folder = latemile::tests::binaryFolder() / "maker_readings_test";
    std::filesystem::create_directories(folder);
    REQUIRE(writeBeside(truth, folder / "clip.mp4", MarkFrames::All));
    std::vector<latemile::Seconds> times;
    for (const auto& frame : truth.times) {
        times.emplace_back(frame.seconds);
    }
    latemile::MarkedClip clip;
    clip.index = latemile::FrameIndex(times);
    const auto scene = latemile::readScene(folder / "clip.SCENE.json");
    REQUIRE(scene);
    clip.conditions.scene = *scene;
    clip.conditions.frames = clip.index.size();
    clip.conditions.captureRate = truth.recipe.video.captureRate;
    clip.conditions.frameInterval = latemile::Seconds(1.0 / truth.recipe.video.captureRate);
    clip.athlete.legLengthCm = truth.legLengthCm;
    const auto marks = latemile::readMarks(folder / "clip.MARKS.csv", clip.index,
                                           truth.recipe.camera.width, truth.recipe.camera.height);
    REQUIRE(marks);
    clip.marking.marks = *marks;
    const auto contacts = latemile::readContacts(folder / "clip.CONTACTS.csv", clip.index);
    REQUIRE(contacts);
    clip.marking.stances = *contacts;
    std::filesystem::remove_all(folder);
    return clip;
}

latemile::Readings readingsFrom(const latemile::MarkedClip& clip)
{
    auto readings = latemile::readingsOf(clip);
    REQUIRE(readings);
    return *std::move(readings);
}

const latemile::Check& checkNamed(const latemile::Readings& readings, std::string_view id)
{
    const auto found = std::ranges::find(readings.checks, id, &latemile::Check::check);
    REQUIRE(found != readings.checks.end());
    return *found;
}

std::vector<double> valuesOf(const latemile::Readings& readings, std::string_view measure)
{
    std::vector<double> values;
    for (const auto& reading : readings.readings) {
        if (reading.measure == measure && reading.step && reading.value) {
            values.push_back(*reading.value);
        }
    }
    return values;
}

struct Difference {
    std::string unit;
    int compared{};
    double worst{};
};

/// The greatest difference of each measure, reading against model, over all steps both have.
std::map<std::string, Difference> differences(const Truth& truth, const latemile::Readings& read)
{
    std::map<std::string, Difference> found;
    for (const auto& reading : read.readings) {
        const auto same = std::find_if(
            truth.readings.begin(), truth.readings.end(), [&reading](const TruthReading& it) {
                const bool step =
                    reading.step ? it.step == reading.step->value : !it.step.has_value();
                return it.measure == reading.measure && step &&
                       reading.instant.starts_with(it.instant.substr(0, 4));
            });
        if (!reading.value || same == truth.readings.end()) {
            continue;
        }
        // A mid-stance half-way between two frames may fall to either: then the model was asked
        // about another frame than the core.
        if (reading.instant.starts_with("mid") && reading.time &&
            std::abs(reading.time->count() - same->ruleTime) > 1e-5) {
            continue;
        }
        auto& it = found[reading.measure];
        it.unit = same->unit;
        ++it.compared;
        it.worst = std::max(it.worst, std::abs(*reading.value - same->ruleValue));
    }
    return found;
}

ClipRecipe planar(std::uint64_t seed, double rate)
{
    return {.runner = {.seed = seed, .planar = true},
            .video = {.captureRate = rate, .duration = 3.0}};
}

} // namespace

TEST_CASE("readings from exact marks meet the model's own measures", "[maker][measures]")
{
    auto recipe = GENERATE(planar(31, 240.0), planar(32, 120.0));
    SECTION("left side, level camera") {}
    SECTION("right side, rolled camera, tired forefoot runner")
    {
        recipe.camera.view = View::RightSide;
        recipe.camera.roll = 2.5;
        recipe.runner.landing = Landing::Forefoot;
        recipe.runner.fatigue = 1.0;
    }
    SECTION("through a lens")
    {
        recipe.camera.lens = {-0.20, 0.05, 0.001, -0.001, 0.0};
    }
    const auto truth = truthWithoutClip(recipe);
    REQUIRE(truth);
    const auto found = differences(*truth, readingsFrom(markedFrom(*truth)));
    for (const char* measure :
         {"head_forward", "head_angle", "neck_length", "trunk_lean", "hip_drop", "hips_behind",
          "foot_ahead", "shank_angle", "knee_flex_contact", "contact_time", "flight_time",
          "duty_factor", "step_rate", "step_length", "vertical_osc"}) {
        INFO(measure);
        REQUIRE(found.contains(measure));
        CHECK(found.at(measure).compared >= 1);
    }
    for (const auto& [measure, difference] : found) {
        INFO(measure << " differs by up to " << difference.worst << " " << difference.unit);
        // Distances 0.3 cm, angles 0.3 degrees, step length in m. Both sides take events from the
        // same frames, so times have no frame's width to differ by.
        const double limit = difference.unit == "m" ? 0.003 : 0.3;
        CHECK(difference.worst < limit);
    }
}

TEST_CASE("the belt alone gives the model's scale, and without line and belt no step is measured",
          "[maker]")
{
    const auto truth = truthWithoutClip(planar(33, 120.0));
    REQUIRE(truth);
    auto clip = markedFrom(*truth);
    clip.conditions.scene.scale.reset();
    clip.athlete.legLengthCm.reset();
    clip.conditions.scene.scaleByBelt = true;
    const auto byBelt = readingsFrom(clip);
    CHECK(*checkNamed(byBelt, "belt_scale").value ==
          Approx(1.0 / truth->pixelsPerCm).epsilon(0.01));

    clip = markedFrom(*truth);
    clip.conditions.scene.beltSpeed.reset();
    const auto unstated = readingsFrom(clip);
    CHECK(checkNamed(unstated, "ground").state == latemile::Check::State::Bad);
    CHECK(*checkNamed(unstated, "ground").value ==
          Approx(-truth->recipe.runner.speed).epsilon(0.01));
    CHECK(valuesOf(unstated, "step_length").empty());
    CHECK_FALSE(valuesOf(unstated, "contact_time").empty());
}

TEST_CASE("over ground the picture gives the model's speed and step length", "[maker]")
{
    auto recipe = planar(34, 120.0);
    recipe.runner.overground = true;
    recipe.runner.variability = 0.0;
    recipe.video.duration = 1.4;
    const auto truth = truthWithoutClip(recipe);
    REQUIRE(truth);
    const auto readings = readingsFrom(markedFrom(*truth));
    const auto& ground = checkNamed(readings, "ground");
    CAPTURE(ground.sentence);
    CHECK(ground.state == latemile::Check::State::Good);
    const auto at = ground.sentence.find("at ");
    REQUIRE(at != std::string::npos);
    CHECK(std::stod(ground.sentence.substr(at + 3)) == Approx(recipe.runner.speed).epsilon(0.02));
    const auto lengths = valuesOf(readings, "step_length");
    REQUIRE_FALSE(lengths.empty());
    for (const double length : lengths) {
        // Speed = step length x step rate.
        CHECK(length == Approx(recipe.runner.speed * 60.0 / recipe.runner.stepRate).epsilon(0.03));
    }
}
