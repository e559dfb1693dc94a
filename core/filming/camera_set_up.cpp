// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/filming/camera_set_up.hpp"

#include <cmath>
#include <numbers>
#include <string>

namespace latemile {

namespace {

constexpr double cmAMetre = 100.0;
constexpr double trunkSpeed = 0.7;          ///< m/s, up and down
constexpr double swingingFootOfSpeed = 2.0; ///< on a belt; over ground the runner's own comes to it
constexpr double nearer = 10.0;             ///< cm

const double fullFrameDiagonal = std::hypot(36.0, 24.0); ///< mm

double radians(double degrees)
{
    return degrees * std::numbers::pi / 180.0;
}

/// Also refuses what is no number.
Outcome<void> within(double value, double least, double most, const char* what, const char* unit)
{
    if (value >= least && value <= most) {
        return {};
    }
    const auto text = [](double number) { return std::to_string(std::lround(number)); };
    return fail(Error::Kind::Inconsistent, std::string(what) + " must lie between " + text(least) +
                                               " and " + text(most) + " " + unit + ".");
}

Outcome<void> checkField(const CameraSetUp& setUp)
{
    switch (setUp.fieldBy) {
    case FieldBy::EquivalentFocal:
        return within(setUp.field, 8.0, 400.0, "The equivalent focal length", "mm");
    case FieldBy::Degrees:
        return within(setUp.field, 4.0, 140.0, "The field of view across the picture", "degrees");
    case FieldBy::WidthAtRunner:
        return within(setUp.field, 50.0, 3000.0, "The width seen at the runner", "cm");
    }
    return {};
}

Outcome<void> check(const CameraSetUp& setUp)
{
    RETURN_IF_ERROR(within(setUp.distanceCm, 50.0, 5000.0, "The camera's distance", "cm"));
    RETURN_IF_ERROR(checkField(setUp));
    RETURN_IF_ERROR(within(setUp.width, 160.0, 16384.0, "The picture's width", "pixels"));
    RETURN_IF_ERROR(within(setUp.height, 120.0, 16384.0, "The picture's height", "pixels"));
    RETURN_IF_ERROR(within(setUp.captureRate, 10.0, 10000.0, "The frame rate", "frames/s"));
    if (!(setUp.exposure > 0.0) || setUp.exposure > 1.0 / setUp.captureRate * 1.0001) {
        return fail(Error::Kind::Inconsistent,
                    "At " + std::to_string(std::lround(setUp.captureRate)) +
                        " frames/s the shutter cannot stay open longer than 1/" +
                        std::to_string(std::lround(setUp.captureRate)) +
                        " s: set a shorter shutter.");
    }
    if (!(setUp.speed >= 0.5 && setUp.speed <= 13.0)) {
        return fail(Error::Kind::Inconsistent,
                    "The speed must lie between 0.5 and 13 m/s: look at its unit.");
    }
    RETURN_IF_ERROR(within(setUp.poleCm, 10.0, 1000.0, "The pole's length", "cm"));
    return within(setUp.statureCm, 50.0, 260.0, "The athlete's height", "cm");
}

double focalOf(const CameraSetUp& setUp)
{
    switch (setUp.fieldBy) {
    case FieldBy::EquivalentFocal:
        return setUp.field * std::hypot(setUp.width, setUp.height) / fullFrameDiagonal;
    case FieldBy::Degrees:
        return setUp.width / (2.0 * std::tan(radians(setUp.field) / 2.0));
    case FieldBy::WidthAtRunner:
        break;
    }
    return setUp.width * setUp.distanceCm / setUp.field;
}

} // namespace

Outcome<PictureGeometry> pictureGeometry(const CameraSetUp& setUp)
{
    RETURN_IF_ERROR(check(setUp));
    PictureGeometry geometry;
    geometry.focalPx = focalOf(setUp);
    geometry.acrossDegrees =
        2.0 * std::atan(setUp.width / (2.0 * geometry.focalPx)) * 180.0 / std::numbers::pi;
    geometry.cmPerPixel = setUp.distanceCm / geometry.focalPx;
    geometry.widthCm = setUp.width * geometry.cmPerPixel;
    geometry.heightCm = setUp.height * geometry.cmPerPixel;
    geometry.frameMs = 1000.0 / setUp.captureRate;
    const double cmOpen = cmAMetre * setUp.exposure; // of what moves at 1 m/s
    geometry.standingFootBlurCm = setUp.onBelt ? setUp.speed * cmOpen : 0.0;
    geometry.swingingFootBlurCm =
        (swingingFootOfSpeed + (setUp.onBelt ? 0.0 : 1.0)) * setUp.speed * cmOpen;
    geometry.trunkBlurCm = std::hypot(trunkSpeed, setUp.onBelt ? 0.0 : setUp.speed) * cmOpen;
    geometry.nearerPercent = 100.0 * (setUp.distanceCm / (setUp.distanceCm - nearer) - 1.0);
    return geometry;
}

Scene sceneOf(const CameraSetUp& setUp, const PictureGeometry& geometry)
{
    const PixelPoint foot{setUp.width / 2.0, setUp.height * 0.9};
    const PixelPoint top{foot.u, foot.v - setUp.poleCm / geometry.cmPerPixel};
    Scene scene;
    scene.scale = ScaleLine{.a = foot, .b = top, .lengthCm = setUp.poleCm};
    scene.plumb = PlumbLine{.top = top, .bottom = foot};
    scene.captureRate = setUp.captureRate;
    if (setUp.onBelt) {
        scene.beltSpeed = setUp.speed;
    }
    return scene;
}

} // namespace latemile
