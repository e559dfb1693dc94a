// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/filming/set_up_advice.hpp"

#include "core/decimal_text.hpp"
#include "core/filming/expected_errors.hpp"

#include <array>
#include <cmath>

namespace latemile {

namespace {

constexpr double room = 15.0;      ///< cm above the head and below the feet, each
constexpr double smearLimit = 0.5; ///< cm: an ankle is marked to that

Remark heightRemark(const CameraSetUp& setUp, const PictureGeometry& geometry)
{
    const double needed = setUp.statureCm + 2.0 * room;
    const double share = 100.0 * setUp.statureCm / geometry.heightCm;
    const std::string shown =
        "The picture shows " + decimalText(geometry.heightCm, 0) + " cm of height at the runner";
    const auto metres = [&](double cm) {
        return decimalText(setUp.distanceCm * cm / geometry.heightCm / 100.0, 1) + " m";
    };
    if (geometry.heightCm < needed) {
        return {"height", Check::State::Bad,
                shown + ": head or feet would be cut off. Go back to " + metres(needed) +
                    ", or turn the camera upright."};
    }
    if (share < 50.0) {
        return {"height", Check::State::Doubt,
                shown + "; the runner fills " + decimalText(share, 0) + " % of it. From " +
                    metres(needed) + " a pixel would be " +
                    decimalText(geometry.cmPerPixel * needed / geometry.heightCm, 2) + " cm."};
    }
    return {"height", Check::State::Good,
            shown + "; the runner fills " + decimalText(share, 0) + " % of it."};
}

Remark distanceRemark(const CameraSetUp& setUp, const PictureGeometry& geometry)
{
    const std::string sentence = "What is 10 cm nearer to the camera than the pole reads " +
                                 decimalText(geometry.nearerPercent, 1) + " % too long";
    if (setUp.distanceCm < 300.0) {
        return {"distance", Check::State::Doubt,
                sentence + ": film from 3 m or further with a longer lens."};
    }
    return {"distance", Check::State::Good, sentence + "."};
}

Remark rateRemark(const CameraSetUp& setUp, const PictureGeometry& geometry)
{
    const std::string apart = "Frames are " + decimalText(geometry.frameMs, 1) + " ms apart: ";
    const auto error = [](double rate) {
        return "± " + decimalText(1000.0 * contactTimeError(rate), 0) + " ms";
    };
    if (setUp.captureRate < 59.5) {
        return {"rate", Check::State::Bad,
                apart + "too few for any timing. Film at 120 frames/s or more."};
    }
    const std::string sentence = apart + "one contact time " + error(setUp.captureRate);
    if (setUp.captureRate < 119.5) {
        return {"rate", Check::State::Doubt,
                sentence + "; film at 240 frames/s for " + error(240.0) + "."};
    }
    return {"rate", Check::State::Good, sentence + "."};
}

Remark shutterRemark(const CameraSetUp& setUp, const PictureGeometry& geometry)
{
    const double smear = setUp.onBelt ? geometry.standingFootBlurCm : geometry.swingingFootBlurCm;
    const std::string sentence =
        std::string(setUp.onBelt ? "A foot on the belt" : "A swinging foot") + " smears over " +
        decimalText(smear, 1) + " cm";
    if (smear > smearLimit * 1.05) {
        return {"shutter", Check::State::Doubt,
                sentence + ": set the shutter to 1/" +
                    std::to_string(shutterFor(setUp.onBelt ? setUp.speed : 3.0 * setUp.speed,
                                              setUp.captureRate)) +
                    " s or shorter, and light the runner."};
    }
    return {"shutter", Check::State::Good, sentence + "."};
}

} // namespace

std::vector<Remark> adviceOn(const CameraSetUp& setUp, const PictureGeometry& geometry)
{
    return {heightRemark(setUp, geometry), distanceRemark(setUp, geometry),
            rateRemark(setUp, geometry), shutterRemark(setUp, geometry)};
}

double lensHeightCm(double statureCm, std::optional<double> legLengthCm)
{
    return legLengthCm.value_or(0.530 * statureCm);
}

int shutterFor(double speed, double captureRate)
{
    constexpr std::array usual{250, 500, 1000, 2000, 4000, 8000};
    for (const int denominator : usual) {
        if (denominator >= captureRate - 0.5 && 100.0 * speed / denominator <= smearLimit * 1.05) {
            return denominator;
        }
    }
    return usual.back();
}

} // namespace latemile
