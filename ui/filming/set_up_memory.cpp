// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/set_up_memory.hpp"

#include <QSettings>

namespace latemile::ui {

CameraSetUp rememberedSetUp()
{
    QSettings settings;
    settings.beginGroup(QStringLiteral("filming/set_up"));
    CameraSetUp setUp;
    const auto read = [&settings](const char* key, double& value) {
        bool isNumber = false;
        const double kept = settings.value(QLatin1String(key)).toDouble(&isNumber);
        value = isNumber ? kept : value;
    };
    read("distance_cm", setUp.distanceCm);
    setUp.fieldBy =
        static_cast<FieldBy>(qBound(0, settings.value(QStringLiteral("field_by"), 0).toInt(), 2));
    read("field", setUp.field);
    setUp.width = settings.value(QStringLiteral("width"), setUp.width).toInt();
    setUp.height = settings.value(QStringLiteral("height"), setUp.height).toInt();
    read("rate", setUp.captureRate);
    read("exposure", setUp.exposure);
    read("speed", setUp.speed);
    setUp.onBelt = settings.value(QStringLiteral("on_belt"), true).toBool();
    read("pole_cm", setUp.poleCm);
    return setUp;
}

void rememberSetUp(const CameraSetUp& setUp)
{
    QSettings settings;
    settings.beginGroup(QStringLiteral("filming/set_up"));
    settings.setValue(QStringLiteral("distance_cm"), setUp.distanceCm);
    settings.setValue(QStringLiteral("field_by"), static_cast<int>(setUp.fieldBy));
    settings.setValue(QStringLiteral("field"), setUp.field);
    settings.setValue(QStringLiteral("width"), setUp.width);
    settings.setValue(QStringLiteral("height"), setUp.height);
    settings.setValue(QStringLiteral("rate"), setUp.captureRate);
    settings.setValue(QStringLiteral("exposure"), setUp.exposure);
    settings.setValue(QStringLiteral("speed"), setUp.speed);
    settings.setValue(QStringLiteral("on_belt"), setUp.onBelt);
    settings.setValue(QStringLiteral("pole_cm"), setUp.poleCm);
}

} // namespace latemile::ui
