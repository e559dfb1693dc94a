// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/landmark.hpp"
#include "core/marks/steps.hpp"

#include <functional>
#include <optional>
#include <span>
#include <string_view>
#include <variant>
#include <vector>

namespace latemile {

class Evidence;

/// A value from what a step's evidence answers, in the measure's own unit.
using Formula = std::function<double(Evidence&)>;

enum class Unit {
    Centimetre,
    Metre,
    Degree,
    Percent,
    Millisecond,
    StepsPerMinute,
    KilonewtonPerMetre,
    None
};
[[nodiscard]] std::string_view
symbolOf(Unit unit); ///< as written in files: "cm", "deg", "steps/min"; None: "-"

/// Of which feet a measure can be had from one clip, and what may be told left against right.
enum class Feet {
    Near,     ///< the leg nearest the camera alone
    Each,     ///< both feet from one side; left and right may be compared (timings)
    Together, ///< upper body: equal numbers of left and right steps pooled, never left against
              ///< right
    Pairs,    ///< a left step and the right one after it (asymmetries)
    Behind    ///< each foot, filmed from behind
};

/// Over what one value is taken.
enum class Over { Step, Stride, Clip };

/// How the value moves as the runner goes faster.
enum class WithSpeed { Steady, Rises, Falls, Unknown };

/// How fast the value runs on around its instant: what a frame too late costs (measures of
/// contact).
struct ValueRate {
    enum class Of { Nothing, Belt, Fixed };
    Of of{Of::Nothing};
    double perSecond{}; ///< Fixed: units of the measure a second; Belt: share of the belt speed
    /// Of a value that lands on the heel and on the forefoot at quite another rate.
    std::optional<double> onHeel{};
    std::optional<double> onForefoot{};
};

/// What to draw on the picture for a value: the lines it came from.
struct HorizontalGap {
    Landmark from;
    Landmark to;
}; ///< plumb through `from`, level line to `to`
struct VerticalGap {
    Landmark from;
    Landmark to;
};
struct AngleToPlumb {
    Landmark at;
    Landmark towards;
}; ///< between up (or down, whichever is nearer) at `at` and the segment
struct JointAngle {
    Landmark end;
    Landmark joint;
    Landmark otherEnd;
}; ///< flexion: between the prolonged segment and the other
using Drawing = std::variant<std::monostate, HorizontalGap, VerticalGap, AngleToPlumb, JointAngle>;

/// One defined quantity: everything that screen, sheet, files and help say about it.
struct Measure {
    std::string_view id{};   ///< as in exchange files: "foot_ahead"
    std::string_view name{}; ///< for people: "Foot ahead of hip"
    Unit unit{};
    int decimals{1};             ///< at most as many are ever shown
    std::string_view positive{}; ///< the sign in words: "ankle ahead of hip"
    Feet feet{};
    Over over{Over::Step};
    std::optional<Instant>
        instant{};                   ///< where it is read and drawn; none: a duration, rate or path
    std::string_view instantWords{}; ///< as in exchange files: "contact", "stance", "stride"
    std::vector<Landmark> landmarks{};
    double floor{}; ///< smallest change worth a word on a sheet, in its unit
    double
        betweenDays{}; ///< placement error of a difference between filming days, one SD, its unit
    WithSpeed withSpeed{WithSpeed::Unknown};
    bool
        speedSensitive{}; ///< timings, lengths, stiffness: comparable within 2 % of speed, else 5 %
    /// Correlation of a value with the next one where they share an event: a pair's 2 c2 - c1 - c3
    /// and the next's 2 c4 - c3 - c5 have one of six parts of their variance in common. Pairs of
    /// contact times have none; strides that overlap the other way (step rate) average out faster
    /// and are left at none.
    double sharedWithNext{};
    ValueRate rateAtContact{};   ///< where a contact or toe-off is read on the frame after it
    ValueRate rateAtMidStance{}; ///< where the frames around mid-stance are not marked
    std::string_view meaning{};  ///< one sentence for the coach
    std::string_view traps{};    ///< one sentence: what makes it wrong
    std::string_view
        source{};            ///< publication of definition, range or reliability, or our own choice
    std::string_view more{}; ///< "the foot lands {} further ahead of the hip"
    std::string_view less{}; ///< "the foot lands {} less far ahead of the hip"
    std::string_view same{}; ///< "how far the foot lands ahead of the hip"
    Drawing drawing{};
    bool isClass{};             ///< names a class (strike): listed, never averaged or compared
    bool fromFrontToo{};        ///< Feet::Behind: a clip from the front will do as well
    std::string_view variant{}; ///< id of the measure this is another reading of; else empty
    Formula formula{};          ///< of one step or stride, from evidence; empty: clip only
    Formula clipFormula{};      ///< of the whole clip, where that is defined; else empty
};

/// It takes a scale: centimetres or metres.
[[nodiscard]] inline bool isLength(const Measure& measure)
{
    return measure.unit == Unit::Centimetre || measure.unit == Unit::Metre;
}

/// All measures with their variants: from the head down, then the timings, then the view from
/// behind.
[[nodiscard]] std::span<const Measure> measureTable();
[[nodiscard]] const Measure* findMeasure(std::string_view id);

} // namespace latemile
