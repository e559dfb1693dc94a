// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/filming/belt_remedy.hpp"

#include "core/decimal_text.hpp"
#include "core/measures/belt_advice.hpp"
#include "core/scene/scale_lines.hpp"

#include <algorithm>

namespace latemile {

namespace {

const Check* checkNamed(const Readings& readings, std::string_view id)
{
    const auto found = std::ranges::find(readings.checks, id, &Check::check);
    return found == readings.checks.end() || !found->value ? nullptr : &*found;
}

BeltRemedy byBelt(Scene scene)
{
    scene.scaleByBelt = true;
    return {"belt_scale", "Take the scale from the belt", std::move(scene)};
}

/// Every length drawn, `factor` times as long.
BeltRemedy rescaled(Scene scene, double factor)
{
    if (scene.plane) {
        for (auto& corner : scene.plane->cm) {
            corner = {factor * corner[0], factor * corner[1]};
        }
        return {"belt", "Make the corners' sides " + decimalText(factor, 2) + " times as long",
                std::move(scene)};
    }
    auto lines = scaleLinesOf(scene);
    for (auto& line : lines) {
        line.lengthCm *= factor;
    }
    auto words = lines.size() == 1
                     ? "Make the scale line " + decimalText(lines.front().lengthCm, 1) + " cm"
                     : "Make the scale lines " + decimalText(factor, 2) + " times as long";
    return {"belt", std::move(words), withScaleLines(std::move(scene), std::move(lines))};
}

} // namespace

std::optional<BeltRemedy> beltRemedy(const FilmedClip& clip)
{
    if (!clip.readings || !clip.scene.beltSpeed) {
        return std::nullopt;
    }
    Scene scene = clip.scene;
    if (checkNamed(*clip.readings, "belt_scale") != nullptr) {
        return scene.scaleByBelt ? std::nullopt : std::optional(byBelt(scene));
    }
    const auto* belt = checkNamed(*clip.readings, "belt");
    if (belt == nullptr) {
        return std::nullopt;
    }
    const auto advice = beltAdvice(BeltWitness{.ratio = *belt->value, .se = belt->se.value_or(0.0)},
                                   clip.facts.captureRate, *scene.beltSpeed);
    switch (advice.cause) {
    case BeltAdvice::Cause::Agrees:
        return std::nullopt;
    case BeltAdvice::Cause::CaptureRate:
        scene.captureRate = advice.captureRate;
        return BeltRemedy{"belt", "Take " + decimalText(*advice.captureRate, 0) + " frames/s",
                          scene};
    case BeltAdvice::Cause::SpeedUnit:
        scene.beltSpeed = advice.beltSpeed;
        return BeltRemedy{"belt", "Take " + decimalText(*advice.beltSpeed, 2) + " m/s", scene};
    case BeltAdvice::Cause::Scale:
        break;
    }
    return advice.scaleFactor && (scene.scale || scene.plane)
               ? std::optional(rescaled(scene, *advice.scaleFactor))
               : std::nullopt;
}

} // namespace latemile
