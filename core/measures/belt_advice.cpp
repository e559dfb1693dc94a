// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/belt_advice.hpp"

#include "core/decimal_text.hpp"

#include <cmath>

namespace latemile {

namespace {

constexpr double milesToKilometres = 1.609344;
constexpr double rateTolerance = 0.06;
constexpr double unitTolerance = 0.03;
constexpr double beltError = 0.015; ///< relative, RMS (Willwacher 2021: 98 to 103 % of what is set)

bool isNear(double ratio, double factor, double tolerance)
{
    return std::abs(ratio / factor - 1.0) <= tolerance;
}

std::string begin(const BeltWitness& belt)
{
    return "The foot moves " + decimalText(belt.ratio, 2) + " ± " + decimalText(1.96 * belt.se, 2) +
           " of the belt speed";
}

} // namespace

BeltAdvice beltAdvice(const BeltWitness& belt, double captureRate, double beltSpeed)
{
    BeltAdvice advice;
    const bool agrees =
        (belt.ratio >= 0.95 && belt.ratio <= 1.04) || std::abs(belt.ratio - 1.0) <= 2.0 * belt.se;
    if (agrees) {
        advice.sentence = begin(belt) + ": scale, capture rate and belt speed agree.";
        return advice;
    }
    for (const double factor : {2.0, 4.0, 8.0, 0.5, 0.25, 0.125}) {
        if (isNear(belt.ratio, factor, rateTolerance)) {
            advice.cause = BeltAdvice::Cause::CaptureRate;
            advice.captureRate = captureRate / factor;
            advice.sentence = begin(belt) + ": was the clip captured at " +
                              decimalText(*advice.captureRate, 0) + " frames/s instead of " +
                              decimalText(captureRate, 0) + "?";
            return advice;
        }
    }
    for (const double factor : {milesToKilometres, 1.0 / milesToKilometres}) {
        if (isNear(belt.ratio, factor, unitTolerance)) {
            const bool isMiles = factor > 1.0;
            advice.cause = BeltAdvice::Cause::SpeedUnit;
            advice.beltSpeed = beltSpeed * factor;
            advice.sentence =
                begin(belt) + ": was the speed read in " +
                (isMiles ? "miles an hour and typed as km/h" : "km/h and typed as miles an hour") +
                "? It would be " + decimalText(*advice.beltSpeed, 2) + " m/s.";
            return advice;
        }
    }
    if (belt.ratio <= 0.0) {
        advice.cause = BeltAdvice::Cause::Scale;
        advice.sentence = begin(belt) + ": the foot moves forwards; view or travel is wrong.";
        return advice;
    }
    advice.cause = BeltAdvice::Cause::Scale;
    advice.scaleFactor = 1.0 / belt.ratio;
    advice.sentence = begin(belt) + ": is the scale line wrong? A line of " +
                      decimalText(100.0 / belt.ratio, 0) + " % of its stated length would agree.";
    return advice;
}

std::optional<BeltScale> scaleFromBelt(const PreparedClip& clip)
{
    const auto from = clip.plane.scaleFrom();
    if (from == ScaleFrom::Line || from == ScaleFrom::Corners) {
        return std::nullopt;
    }
    // Whatever the plane's centimetres are now, the belt says how far off they are.
    PreparedClip scaled = clip;
    scaled.plane = clip.plane.withScale(1.0, 0.0, ScaleFrom::Line);
    const auto belt = beltWitness(scaled);
    const auto& toes = clip.tracks.framesOf(BodySide::Near, Landmark::Toe);
    const auto& heels = clip.tracks.framesOf(BodySide::Near, Landmark::Heel);
    if (!belt || belt->ratio <= 0.0 || (toes.empty() && heels.empty())) {
        return std::nullopt;
    }
    const auto* foot = toes.empty()
                           ? clip.tracks.find({heels.front(), BodySide::Near, Landmark::Heel})
                           : clip.tracks.find({toes.front(), BodySide::Near, Landmark::Toe});
    return BeltScale{clip.plane.cmPerPixel(foot->mark.at) / belt->ratio,
                     std::hypot(belt->se / belt->ratio, beltError)};
}

} // namespace latemile
