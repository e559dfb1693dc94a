// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/set_up_numbers.hpp"

#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"

#include <QCoreApplication>

namespace latemile::ui {
namespace {

QString translated(const char* text)
{
    return QCoreApplication::translate("SetUpNumbers", text);
}

QString cm(double value, int decimals)
{
    return numberText(value, decimals) + QStringLiteral("\u00a0cm");
}

} // namespace

std::vector<NamedNumber> pictureNumbers(const CameraSetUp& setUp, const PictureGeometry& geometry)
{
    std::vector<NamedNumber> numbers{
        {translated(QT_TRANSLATE_NOOP("SetUpNumbers", "A pixel at the runner")),
         cm(geometry.cmPerPixel, 2)},
        {translated(QT_TRANSLATE_NOOP("SetUpNumbers", "The picture covers")),
         QStringLiteral("%1 × %2\u00a0m")
             .arg(numberText(geometry.widthCm / 100, 1), numberText(geometry.heightCm / 100, 1))},
        {translated(QT_TRANSLATE_NOOP("SetUpNumbers", "Frames are apart")),
         numberText(geometry.frameMs, 1) + QStringLiteral("\u00a0ms")}};
    if (setUp.onBelt) {
        numbers.push_back({translated(QT_TRANSLATE_NOOP("SetUpNumbers", "Foot on the belt smears")),
                           cm(geometry.standingFootBlurCm, 1)});
    }
    numbers.push_back({translated(QT_TRANSLATE_NOOP("SetUpNumbers", "Swinging foot smears")),
                       cm(geometry.swingingFootBlurCm, 1)});
    numbers.push_back({translated(QT_TRANSLATE_NOOP("SetUpNumbers", "Trunk smears")),
                       cm(geometry.trunkBlurCm, 1)});
    return numbers;
}

std::vector<NamedNumber> errorNumbers(const std::vector<ExpectedError>& errors)
{
    std::vector<NamedNumber> numbers;
    for (const ExpectedError& error : errors) {
        const QString unit = unitText(error.measure->unit);
        numbers.push_back({fromUtf8(error.measure->name),
                           QStringLiteral("±\u00a0") +
                               numberText(error.se, error.measure->decimals) +
                               (unit == QStringLiteral("°") ? unit : QChar(0x00a0) + unit)});
    }
    return numbers;
}

} // namespace latemile::ui
