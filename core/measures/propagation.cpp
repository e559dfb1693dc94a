// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/propagation.hpp"

#include <cmath>

namespace latemile {

namespace {

using Formula = double (*)(Evidence&);

/// Judgement of an event that all steps of a clip share, in frame intervals (A).
constexpr double commonJudgement = 0.25;
/// Speed taken for the retreat of the foot where none is stated, m/s (A).
constexpr double usualSpeed = 3.0;

double square(double value)
{
    return value * value;
}

class Slopes {
public:
    /// `plain` has answered the formula with `value`.
    Slopes(const PreparedClip& clip, const Measure& measure, Formula formula, const Evidence& plain,
           double value)
        : m_clip(clip), m_measure(measure), m_formula(formula), m_plain(plain), m_value(value)
    {
    }

    /// Change of the value a unit of the disturbance; `set` puts an amount into a Disturbance.
    /// Amounts are small enough for one side to do: what bends within them is far below any error.
    template <class Set>
    [[nodiscard]] double by(double amount, Set set) const
    {
        const auto shifted = valueAt(amount, set);
        return shifted ? difference(*shifted, m_value) / amount : 0.0;
    }

    /// Units a second, read from the frames before and after where they are marked.
    [[nodiscard]] std::optional<double> measuredRate() const
    {
        const auto set = [](Disturbance& d, double frames) {
            d.framesLater = static_cast<int>(frames);
        };
        const auto later = valueAt(1.0, set);
        const auto sooner = valueAt(-1.0, set);
        if (!later || !sooner) {
            return std::nullopt;
        }
        return difference(*later, *sooner) / (2.0 * m_clip.frameInterval.count());
    }

private:
    template <class Set>
    [[nodiscard]] std::optional<double> valueAt(double amount, Set set) const
    {
        Disturbance disturbance;
        set(disturbance, amount);
        auto evidence = m_plain.shifted(disturbance);
        const double value = m_formula(evidence);
        return evidence.missing() ? std::nullopt : std::optional(value);
    }

    /// Angles near +-180 degrees do not jump.
    [[nodiscard]] double difference(double high, double low) const
    {
        return m_measure.unit == Unit::Degree ? std::remainder(high - low, 360.0) : high - low;
    }

    const PreparedClip& m_clip;
    const Measure& m_measure;
    Formula m_formula;
    const Evidence& m_plain;
    double m_value;
};

double typicalRate(const ValueRate& rate, const PreparedClip& clip)
{
    switch (rate.of) {
    case ValueRate::Of::Nothing:
        return 0.0;
    case ValueRate::Of::Fixed:
        return rate.perSecond;
    case ValueRate::Of::Belt:
        return rate.perSecond * 100.0 * clip.conditions.scene.beltSpeed.value_or(usualSpeed);
    }
    return 0.0;
}

double markShare(const PreparedClip& clip, const std::set<MarkKey>& marks, const Slopes& slopes)
{
    constexpr double shiftPx = 1e-3;
    double variance = 0.0;
    for (const auto& key : marks) {
        const double se = clip.tracks.find(key)->sePx;
        const double u = slopes.by(shiftPx, [&](Disturbance& d, double by) {
            d.mark = key;
            d.markBy = {by, 0.0};
        });
        const double v = slopes.by(shiftPx, [&](Disturbance& d, double by) {
            d.mark = key;
            d.markBy = {0.0, by};
        });
        variance += square(se) * (square(u) + square(v));
    }
    return variance;
}

/// The mean trunk length beyond the marks the value uses itself.
double trunkShare(const PreparedClip& clip, const Evidence& base, const Slopes& slopes)
{
    if (!base.usedTrunk()) {
        return 0.0;
    }
    const double slope = slopes.by(1e-6, [](Disturbance& d, double by) { d.trunkBy = by; });
    return square(slope * clip.trunk->se / clip.trunk->cm);
}

double eventShare(const PreparedClip& clip, const std::set<EventKey>& events, const Slopes& slopes)
{
    const double shift = 1e-4 * clip.frameInterval.count();
    double variance = 0.0;
    for (const auto& key : events) {
        const double slope = slopes.by(shift, [&](Disturbance& d, double by) {
            d.event = key;
            d.eventBy = by;
        });
        variance += square(slope * clip.steps[key.step].eventError.count());
    }
    return variance;
}

/// How far the value runs on while the frame read is not the event itself.
struct Rates {
    double contact{};
    double midStance{};
};

Rates ratesOf(const PreparedClip& clip, const Measure& measure, const Evidence& base,
              const Slopes& slopes)
{
    Rates rates{typicalRate(measure.rateAtContact, clip),
                typicalRate(measure.rateAtMidStance, clip)};
    if (base.wasReadMidway()) {
        rates.midStance = slopes.measuredRate().value_or(rates.midStance);
    }
    return rates;
}

double timingShare(const PreparedClip& clip, const Evidence& base, std::size_t step,
                   const Rates& rates)
{
    const double frame = clip.frameInterval.count();
    const double event = clip.steps[step].eventError.count();
    double variance = 0.0;
    if (base.wasReadLate()) {
        // On average half a frame after the event, besides the event's own error.
        variance += square(rates.contact) * (square(frame / 2.0) + square(event));
    }
    if (base.wasReadMidway()) {
        // Mid-stance is the mean of two events, read on the nearest frame.
        variance += square(rates.midStance) * (square(event) / 2.0 + square(frame) / 12.0);
    }
    return variance;
}

bool isLength(Unit unit)
{
    return unit == Unit::Centimetre || unit == Unit::Metre;
}

double commonEventError(const PreparedClip& clip, const Measure& measure, const Evidence& base,
                        const Slopes& slopes, const Rates& rates)
{
    if (measure.unit == Unit::Degree) {
        return 0.0;
    }
    const double judgement = commonJudgement * clip.frameInterval.count();
    const double shift = 1e-4 * clip.frameInterval.count();
    double variance =
        square(slopes.by(shift, [](Disturbance& d, double by) { d.allContactsBy = by; })) +
        square(slopes.by(shift, [](Disturbance& d, double by) { d.allToeOffsBy = by; }));
    if (isLength(measure.unit)) {
        variance += base.wasReadLate() ? square(rates.contact) : 0.0;
        variance += base.wasReadMidway() ? square(rates.midStance) / 2.0 : 0.0;
    }
    return judgement * std::sqrt(variance);
}

} // namespace

double Propagated::standardError() const
{
    return std::sqrt(shares.marks + shares.events + shares.scale + shares.plumb);
}

Propagated propagate(const PreparedClip& clip, const Measure& measure, double (*formula)(Evidence&),
                     std::size_t step)
{
    Evidence base(clip, step);
    const double value = formula(base);
    Propagated result{.value = std::nullopt,
                      .missing = base.missing().value_or(""),
                      .shares = {},
                      .common = {},
                      .marks = base.marksUsed(),
                      .events = base.eventsUsed(),
                      .readLate = base.wasReadLate()};
    if (base.missing()) {
        return result;
    }
    result.value = value;
    const Slopes slopes(clip, measure, formula, base, value);
    const auto rates = ratesOf(clip, measure, base, slopes);
    result.shares.marks =
        markShare(clip, result.marks, slopes) + base.ownVariance() + trunkShare(clip, base, slopes);
    result.shares.events =
        eventShare(clip, result.events, slopes) + timingShare(clip, base, step, rates);
    if (!result.marks.empty()) {
        constexpr double shift = 1e-6;
        const double byScale =
            slopes.by(shift, [](Disturbance& d, double by) { d.scene.relativeScale = by; });
        const double byRoll =
            slopes.by(shift, [](Disturbance& d, double by) { d.scene.rollRadians = by; });
        result.common.scale = std::abs(byScale) * clip.plane.relativeScaleError();
        result.common.plumb = std::abs(byRoll) * clip.plane.plumbError();
        result.shares.scale = square(result.common.scale);
        result.shares.plumb = square(result.common.plumb);
    }
    result.common.events = commonEventError(clip, measure, base, slopes, rates);
    return result;
}

} // namespace latemile
