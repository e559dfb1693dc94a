// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/click_errors.hpp"
#include "core/marks/steps.hpp"
#include "core/measures/own_measures.hpp"
#include "core/scene/plane.hpp"
#include "core/scene/scene.hpp"

#include <optional>
#include <string>
#include <vector>

namespace latemile {

/// What is known of the person filmed that a measure may need.
struct AthleteFacts {
    std::string name;
    std::optional<double> heightCm;
    std::optional<double> legLengthCm; ///< greater trochanter to floor
    std::optional<double> massKg;
};

/// The share of each source in a reading's variance; they add up to se squared. In the measure's
/// unit, squared.
struct ErrorShares {
    double marks{};
    double events{}; ///< contact and toe-off, and frames read late
    double scale{};
    double plumb{};
    double belt{}; ///< the belt's true speed against the speed it is set to
    [[nodiscard]] double sum() const { return marks + events + scale + plumb + belt; }
};

/// What every step of a clip is wrong by together, one standard error each, in the measure's unit.
struct CommonErrors {
    double events{}; ///< judgement of contact and toe-off, 0.25 frame intervals each
    double scale{};
    double plumb{};
    double belt{}; ///< true speed of the belt; cancels between clips of one belt at one speed
};

/// A measure's value at one step, stride or clip, with its standard error; or the reason why there
/// is none.
struct Reading {
    std::string measure;            ///< id
    std::optional<StepNumber> step; ///< none: one value for the clip
    std::optional<Foot> foot;       ///< none: both
    std::string instant;            ///< "contact", "stance", "run of 12 steps"
    std::optional<Seconds> time;    ///< real time of the instant
    std::optional<double> value;
    std::optional<double> se;
    std::string reason; ///< why there is no value; with a value: what to beware of, else empty
    ErrorShares shares;
    CommonErrors common;
    bool confirmed{}; ///< it comes from what the coach placed and confirmed, and nothing else
    std::vector<MarkKey> marksUsed;
};

/// A test the scene or the marking must pass before its numbers are trusted.
struct Check {
    enum class State { Good, Doubt, Bad };
    std::string check; ///< id: "belt", "capture_rate", "cadence", "belt_line", "travel", "facing",
                       ///< "bones", "events", "frame_rate", "belt_scale", "ground"
    std::optional<double> value;
    std::optional<double> se;
    State state{State::Doubt};
    std::string sentence;
};
[[nodiscard]] std::string_view nameOf(Check::State state); ///< "good", "doubt", "bad"

/// One measure over the steps of a clip.
struct Summary {
    std::string measure;
    std::optional<Foot> foot; ///< none: both
    int n{}; ///< confirmed steps (strides) that have a value; Feet::Together: equal numbers of left
             ///< and right
    double mean{};
    std::optional<double> sd; ///< over steps; Feet::Together: within each foot, so that the
                              ///< girdle's turn is no spread
    double se{};              ///< of the mean: spread and common errors
    int degreesOfFreedom{};
    CommonErrors common;
};

/// What is compared besides the numbers: when two clips may be set against each other.
struct ClipConditions {
    std::string file;
    std::string date;             ///< ISO 8601, empty where unknown
    std::string condition;        ///< "fresh", "fatigued", "other", empty where unknown
    std::optional<double> minute; ///< into the run
    std::optional<double> inclinePercent;
    std::string shoes;
    std::int64_t frames{};
    Seconds frameInterval{}; ///< median
    double captureRate{};
    ScaleFrom scaleFrom{ScaleFrom::Nothing};
    Scene scene;
};

/// Everything Latemile reads from one marked clip. Pure values: recomputed, never stored as truth.
struct Readings {
    ClipConditions clip;
    std::vector<Step> steps;
    std::vector<Reading> readings;
    std::vector<Check> checks;
    std::vector<Summary> summary;
    OwnMeasures
        own{}; ///< the coach's own among the readings: their definitions go with the numbers
    bool unconfirmedToo{}; ///< the summary counts what nobody confirmed: to screen by, no more
};

/// What readings are computed from; every member is a value.
struct MarkedClip {
    ClipConditions conditions; ///< with the scene
    FrameIndex index;
    Marking marking;
    AthleteFacts athlete;
    ClickErrors clicks; ///< of the coach who placed the marks
};

/// All measures of all steps with their errors, the checks and the summaries. A scene that cannot
/// be used is an Error; a measure that cannot be had is a reading with a reason. A value is read
/// from what the coach placed and confirmed alone, as if nothing else were marked; only where that
/// gives none is it read from all marks, is unconfirmed, and enters no summary. With
/// `unconfirmedToo` all are read from all marks and enter. The checks are the worse of those of
/// everything and of the coach's part: a wrong proposal may forbid a comparison, never make one. A
/// coach's own measures come after those of the table.
Outcome<Readings> readingsOf(const MarkedClip& clip, bool unconfirmedToo = false,
                             const OwnMeasures& own = {});

} // namespace latemile
