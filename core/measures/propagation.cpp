// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/propagation.hpp"

#include "core/measures/formulas.hpp"
#include "core/measures/mark_pushes.hpp"
#include "core/measures/slopes.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace latemile {

namespace {

/// Judgement that all contacts of a clip share, and all its toe-offs, in frame intervals (a choice
/// of this project).
constexpr double commonJudgement = 0.25;
/// Speed taken for the retreat of the foot where none is stated, m/s (a choice of this project).
constexpr double usualSpeed = 3.0;

double square(double value)
{
    return value * value;
}

/// Never more than the event's whole error, seconds.
double sharedJudgement(const PreparedClip& clip, std::size_t step)
{
    return std::min(commonJudgement * clip.frameInterval.count(),
                    clip.steps[step].eventError.count());
}

/// By how the foot landed, where that is known and matters.
double rateOfLanding(const ValueRate& rate, const PreparedClip& clip, std::size_t step)
{
    if (!rate.onHeel || !rate.onForefoot) {
        return rate.perSecond;
    }
    Evidence landing(clip, step);
    const double strike = formula::strike(landing);
    return landing.missing() || strike == 0.0 ? rate.perSecond
           : strike > 0.0                     ? *rate.onHeel
                                              : *rate.onForefoot;
}

double typicalRate(const ValueRate& rate, const PreparedClip& clip, std::size_t step)
{
    switch (rate.of) {
    case ValueRate::Of::Nothing:
        return 0.0;
    case ValueRate::Of::Fixed:
        return rateOfLanding(rate, clip, step);
    case ValueRate::Of::Belt:
        return rate.perSecond * 100.0 * clip.conditions.scene.beltSpeed.value_or(usualSpeed);
    }
    return 0.0;
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

/// How the value answers to an event judged too early and to one judged too late. They differ where
/// it is read at the event: landing and leaving the ground change speeds.
struct BothWays {
    double earlier{};
    double later{};
    double noise{}; ///< variance that the marks give to either
    [[nodiscard]] EventSpeed speed() const
    {
        return {.seen = (square(earlier) + square(later)) / 2.0, .noise = noise};
    }
};

/// Variance of the value's speed at an event from the marks that the speed is taken between, mean
/// of both ways. What a landmark's two marks beside the event push together is its weight in the
/// value.
double noiseOfSpeed(const PreparedClip& clip, const EventKey& event,
                    const std::vector<MarkKey>& marks, const std::vector<Push>& pushes)
{
    const auto first = clip.frameOf(event.step, event.toeOff ? Instant::ToeOff : Instant::Contact);
    double noise = 0.0;
    for (std::size_t i = 0; first && i < marks.size(); ++i) {
        const auto& mark = marks[i];
        const MarkKey before{{first->value - 1}, mark.side, mark.landmark};
        const auto earlier = std::ranges::lower_bound(marks, before);
        if (mark.frame != *first || earlier == marks.end() || *earlier != before) {
            continue;
        }
        const auto& there = pushes[static_cast<std::size_t>(earlier - marks.begin())];
        const double weight = square(pushes[i].u + there.u) + square(pushes[i].v + there.v);
        const int path = clip.tracks.find(mark)->path;
        const bool isTogether = path >= 0 && path == clip.tracks.find(before)->path;
        for (const bool after : {false, true}) {
            const auto frames = speedFrames(clip, *first, after, mark.side, mark.landmark);
            noise += frames ? weight * (isTogether ? 1.0 - pathCorrelation : 1.0) /
                                  square(frames->seconds)
                            : 0.0;
        }
    }
    return noise;
}

/// Where it was read from marks at one event of a kind.
void keepSpeed(Propagated& result, const EventKey& key, EventSpeed speed)
{
    if (!result.marks.empty() &&
        std::ranges::count(result.events, key.toeOff, &EventKey::toeOff) == 1) {
        (key.toeOff ? result.atToeOff : result.atContact) = speed;
    }
}

/// Adds each event's own share and returns the variance of the judgement they share, once for
/// contacts and once for toe-offs: in differences of two events of one kind it cancels.
double addEventShares(Propagated& result, const PreparedClip& clip, const Slopes& slopes,
                      const std::vector<Push>& pushes)
{
    const double shift = 1e-4 * clip.frameInterval.count();
    BothWays contacts;
    BothWays toeOffs;
    for (const auto& key : result.events) {
        const auto set = [&](Disturbance& d, double by) {
            d.event = key;
            d.eventBy = by;
        };
        BothWays slope;
        slope.later = slopes.by(shift, set);
        slope.earlier = result.marks.empty() ? slope.later : slopes.by(-shift, set);
        slope.noise = noiseOfSpeed(clip, key, result.marks, pushes);
        auto speed = slope.speed();
        speed.own = ownEventVariance(clip, key.step);
        speed.shared = square(sharedJudgement(clip, key.step));
        (key.toeOff ? result.detail.toeOffs : result.detail.contacts) +=
            speed.withoutNoise() * speed.own;
        keepSpeed(result, key, speed);
        auto& shared = key.toeOff ? toeOffs : contacts;
        shared.earlier += slope.earlier * sharedJudgement(clip, key.step);
        shared.later += slope.later * sharedJudgement(clip, key.step);
        shared.noise += slope.noise * speed.shared;
    }
    return contacts.speed().withoutNoise() + toeOffs.speed().withoutNoise();
}

/// How far the value runs on while the frame read is not the event itself.
struct Rates {
    double contact{};
    double midStance{};
};

Rates ratesOf(const PreparedClip& clip, const Measure& measure, const Evidence& base,
              std::size_t step, const Slopes& slopes)
{
    Rates rates;
    if (base.wasReadLate()) {
        rates.contact = typicalRate(measure.rateAtContact, clip, step);
    }
    if (base.wasReadMidway()) {
        const auto measured = slopes.measuredRate();
        rates.midStance = measured ? *measured : typicalRate(measure.rateAtMidStance, clip, step);
    }
    return rates;
}

void addTimingShares(DetailedShares& detail, const PreparedClip& clip, const Evidence& base,
                     std::size_t step, const Rates& rates)
{
    const double frame = clip.frameInterval.count();
    const double own = ownEventVariance(clip, step);
    if (base.wasReadLate()) {
        // On average half a frame after the event, besides the event's own error.
        detail.readLate = square(rates.contact) * (square(frame / 2.0) + own);
    }
    if (base.wasReadMidway()) {
        // Mid-stance is the mean of two events, each half-way between two frames: it lies on a
        // frame, or half a frame after the one that is read, as often as not.
        detail.readMidway = square(rates.midStance) * (own / 2.0 + square(frame) / 8.0);
    }
}

/// Of the judgement all steps share, where the value is read beside the event.
double sharedTiming(const PreparedClip& clip, const Evidence& base, std::size_t step,
                    const Rates& rates)
{
    double squares = base.wasReadLate() ? square(rates.contact) : 0.0;
    squares += base.wasReadMidway() ? square(rates.midStance) / 2.0 : 0.0;
    return squares * square(sharedJudgement(clip, step));
}

void addSceneShares(Propagated& result, const PreparedClip& clip, const Evidence& base,
                    const Slopes& slopes)
{
    constexpr double shift = 1e-6;
    if (!result.marks.empty()) {
        const double byScale =
            slopes.by(shift, [](Disturbance& d, double by) { d.scene.relativeScale = by; });
        const double byRoll =
            slopes.by(shift, [](Disturbance& d, double by) { d.scene.rollRadians = by; });
        result.common.scale = std::abs(byScale) * clip.plane.relativeScaleError();
        result.common.plumb = std::abs(byRoll) * clip.plane.plumbError();
    }
    if (base.usedBelt()) {
        const double byBelt = slopes.by(shift, [](Disturbance& d, double by) { d.beltBy = by; });
        result.common.belt = std::abs(byBelt) * beltError;
    }
    result.shares.scale = square(result.common.scale);
    result.shares.plumb = square(result.common.plumb);
    result.shares.belt = square(result.common.belt);
}

/// An angle between points on one spot has a number, and an error that is none.
Propagated believable(Propagated result, const Measure& measure, std::size_t step)
{
    constexpr double widest = 90.0; // degrees: any direction at all
    const double se = result.standardError();
    if (std::isfinite(se) && (measure.unit != Unit::Degree || se < widest)) {
        return result;
    }
    Propagated missing;
    missing.missing =
        "the points it is taken from lie too near to each other, step " + std::to_string(step + 1);
    missing.marks = std::move(result.marks);
    missing.events = std::move(result.events);
    return missing;
}

} // namespace

double ownEventVariance(const PreparedClip& clip, std::size_t step)
{
    return square(clip.steps[step].eventError.count()) - square(sharedJudgement(clip, step));
}

double Propagated::standardError() const
{
    return std::sqrt(shares.sum());
}

Propagated propagate(const PreparedClip& clip, const Measure& measure, const Formula& formula,
                     std::size_t step)
{
    Evidence base(clip, step, Evidence::PathSlopes::Keep);
    const double value = formula(base);
    if (!base.missing() && !std::isfinite(value)) {
        base.setMissing("the formula divides by nothing here, step " + std::to_string(step + 1));
    }
    Propagated result{.value = std::nullopt,
                      .missing = base.missing().value_or(""),
                      .shares = {},
                      .detail = {},
                      .common = {},
                      .marks = base.marksUsed(),
                      .events = base.eventsUsed(),
                      .readLate = base.wasReadLate()};
    if (base.missing()) {
        return result;
    }
    result.value = value;
    const Slopes slopes(clip, measure, formula, base, value);
    const auto rates = ratesOf(clip, measure, base, step, slopes);
    auto& detail = result.detail;
    const auto pushes = pushesOf(clip, base, slopes);
    addMarkShares(detail, clip, result.marks, pushes);
    const double shared =
        addEventShares(result, clip, slopes, pushes) + sharedTiming(clip, base, step, rates);
    addTimingShares(detail, clip, base, step, rates);
    detail.flatFoot = base.ownVariance();
    detail.trunk = trunkShare(clip, base, slopes);
    addSceneShares(result, clip, base, slopes);
    result.shares.marks = detail.flatFoot + detail.trunk +
                          std::accumulate(detail.landmarks.begin(), detail.landmarks.end(), 0.0);
    result.common.events = std::sqrt(shared);
    result.shares.events =
        detail.contacts + detail.toeOffs + detail.readLate + detail.readMidway + shared;
    result.lateBy = base.wasReadLate() ? rates.contact * clip.frameInterval.count() / 2.0 : 0.0;
    return believable(std::move(result), measure, step);
}

} // namespace latemile
