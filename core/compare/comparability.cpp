// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/compare/comparability.hpp"

#include "core/decimal_text.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

constexpr double speedToleranceTimings = 0.02;
constexpr double speedTolerance = 0.05;
constexpr double inclineTolerance = 0.5; // percent
constexpr double captureRateTolerance = 0.01;

std::optional<std::string> speedsDiffer(const Measure& measure, const ClipConditions& a,
                                        const ClipConditions& b, const ClipNames& names)
{
    if (!a.scene.beltSpeed || !b.scene.beltSpeed) {
        return std::nullopt;
    }
    const double v1 = *a.scene.beltSpeed;
    const double v2 = *b.scene.beltSpeed;
    const double tolerance = measure.speedSensitive ? speedToleranceTimings : speedTolerance;
    // A belt set to the same speed must not differ by the last bit of a conversion.
    if (std::abs(v2 - v1) <= (tolerance + 1e-9) * v1) {
        return std::nullopt;
    }
    return "The speeds differ: " + decimalText(v1, 2) + " m/s " + std::string(names.first) + ", " +
           decimalText(v2, 2) + " m/s " + std::string(names.second) + ".";
}

std::optional<std::string> filmingDiffers(const ClipConditions& a, const ClipConditions& b)
{
    if (a.scene.view != b.scene.view) {
        return "The clips are filmed from different sides.";
    }
    if (std::abs(a.captureRate - b.captureRate) > captureRateTolerance * a.captureRate) {
        return "The capture rates differ: " + decimalText(a.captureRate, 0) + " and " +
               decimalText(b.captureRate, 0) + " frames/s.";
    }
    if (a.inclinePercent && b.inclinePercent &&
        std::abs(*a.inclinePercent - *b.inclinePercent) > inclineTolerance) {
        return "The inclines differ: " + decimalText(*a.inclinePercent, 1) + " % and " +
               decimalText(*b.inclinePercent, 1) + " %.";
    }
    if (!a.shoes.empty() && !b.shoes.empty() && a.shoes != b.shoes) {
        return "The shoes differ.";
    }
    return std::nullopt;
}

/// A slow camera spoils timings and whatever is read at contact, every other bad check everything.
bool concerns(const Check& check, const Measure& measure)
{
    return check.check != "frame_rate" || measure.feet == Feet::Each ||
           measure.feet == Feet::Pairs || measure.instant == Instant::Contact;
}

std::optional<std::string> badCheck(const Measure& measure, const Readings& readings,
                                    std::string_view which)
{
    for (const auto& check : readings.checks) {
        if (check.state == Check::State::Bad && concerns(check, measure)) {
            return "In the " + std::string(which) + " clip a check is bad. " + check.sentence;
        }
    }
    return std::nullopt;
}

/// Besides speed.
std::optional<std::string> otherwiseForbidden(const Measure& measure, const Readings& fresh,
                                              const Readings& fatigued, const ClipNames& names)
{
    if (auto why = filmingDiffers(fresh.clip, fatigued.clip)) {
        return why;
    }
    if (auto why = badCheck(measure, fresh, names.first)) {
        return why;
    }
    return badCheck(measure, fatigued, names.second);
}

} // namespace

bool isSameScene(const ClipConditions& a, const ClipConditions& b)
{
    const auto& s = a.scene;
    const auto& t = b.scene;
    return a.date == b.date && s.view == t.view && s.scale == t.scale && s.plumb == t.plumb &&
           s.lens == t.lens && s.plane == t.plane;
}

std::optional<std::string> whyNotComparable(const Measure& measure, const Readings& fresh,
                                            const Readings& fatigued, const ClipNames& names)
{
    if (auto why = speedsDiffer(measure, fresh.clip, fatigued.clip, names)) {
        return why;
    }
    return otherwiseForbidden(measure, fresh, fatigued, names);
}

bool onlySpeedForbids(const Measure& measure, const Readings& fresh, const Readings& fatigued,
                      const ClipNames& names)
{
    return speedsDiffer(measure, fresh.clip, fatigued.clip, names).has_value() &&
           !otherwiseForbidden(measure, fresh, fatigued, names);
}

} // namespace latemile
