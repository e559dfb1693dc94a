// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/set_up_card.hpp"

#include "core/filming/set_up_advice.hpp"
#include "ui/text/numbers.hpp"

#include <QCoreApplication>

#include <cmath>

namespace latemile::ui {
namespace {

QString translated(const char* text)
{
    return QCoreApplication::translate("SetUpCard", text);
}
#define SAID(text) translated(QT_TRANSLATE_NOOP("SetUpCard", text))

QString metres(double cm)
{
    return numberText(cm / 100.0, 2) + QStringLiteral("\u00a0m");
}

QString centimetres(double cm)
{
    return numberText(cm, 0) + QStringLiteral("\u00a0cm");
}

QString lensText(const CameraSetUp& setUp, const PictureGeometry& geometry)
{
    const QString across = SAID("%1° across").arg(numberText(geometry.acrossDegrees, 0));
    return setUp.fieldBy == FieldBy::EquivalentFocal
               ? numberText(setUp.field, 0) + QStringLiteral("\u00a0mm (") + across + u')'
               : across;
}

std::vector<NamedNumber> cameraNumbers(const CameraSetUp& setUp, const PictureGeometry& geometry,
                                       double lensHeight)
{
    return {{SAID("Distance to the runner"), metres(setUp.distanceCm)},
            {SAID("Lens above the belt"), centimetres(lensHeight)},
            {SAID("Lens, 35 mm equivalent"), lensText(setUp, geometry)},
            {SAID("Picture"), QStringLiteral("%1 × %2").arg(setUp.width).arg(setUp.height)},
            {SAID("Frame rate"), numberText(setUp.captureRate, 0) + SAID(" frames/s")},
            {SAID("Shutter"), QStringLiteral("1/%1\u00a0s").arg(std::lround(1.0 / setUp.exposure))},
            {SAID("Pole in the runner's plane"), centimetres(setUp.poleCm)}};
}

QStringList checksFor(const CameraSetUp& setUp, double lensHeight)
{
    QStringList checks{
        SAID("Consent: the athlete agrees to be filmed and knows who will see it."),
        SAID("Tripod %1 from the middle of the belt, lens %2 above it; nobody touches it "
             "between the first clip and the last.")
            .arg(metres(setUp.distanceCm), centimetres(lensHeight)),
        SAID("Square to the belt: its near edge runs level in the picture, and both ends of the "
             "belt look equally long."),
        SAID("%1 frames/s, shutter 1/%2 s. Focus and brightness locked, stabiliser and zoom off.")
            .arg(numberText(setUp.captureRate, 0))
            .arg(std::lround(1.0 / setUp.exposure)),
        SAID("Lights on the runner from the camera's side; no window behind the runner."),
        SAID("Plumb line: a cord with a weight hangs in the picture."),
        SAID("Pole of %1 upright where the runner will run: film it for two seconds, then take "
             "it away.")
            .arg(centimetres(setUp.poleCm)),
        SAID("Tight clothing; hip, knee and ankle to be seen, hair off the ear."),
        SAID("Head and feet stay in the picture, with a hand's breadth to spare."),
        SAID("Fresh: after the first minutes. Late: at the same belt speed, incline and shoes. "
             "Twenty seconds each.")};
    if (!setUp.onBelt) {
        checks[2] = SAID("Square to the lane: the runner passes at one distance, left to right or "
                         "right to left, in the middle of the picture.");
        checks[1] = SAID("Tripod %1 from the middle of the lane, lens %2 above the ground; nobody "
                         "touches it between the first clip and the last.")
                        .arg(metres(setUp.distanceCm), centimetres(lensHeight));
    }
    return checks;
}

} // namespace

SetUpCard setUpCard(const CameraSetUp& setUp, const PictureGeometry& geometry,
                    std::optional<double> legLengthCm)
{
    const double lensHeight = lensHeightCm(setUp.statureCm, legLengthCm);
    return {.camera = cameraNumbers(setUp, geometry, lensHeight),
            .picture = pictureNumbers(setUp, geometry),
            .errors = errorNumbers(expectedErrors(sceneOf(setUp, geometry), setUp.captureRate)),
            .checks = checksFor(setUp, lensHeight),
            .caution = SAID("Pain, dizziness or chest trouble: stop the belt. Whether to run on is "
                            "for a licensed clinician to say. A safety clip is worn on the belt."),
            .distanceCm = setUp.distanceCm,
            .lensHeightCm = lensHeight};
}

} // namespace latemile::ui
