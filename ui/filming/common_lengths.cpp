// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/common_lengths.hpp"

#include <QCoreApplication>
#include <QSettings>
#include <QVariant>

#include <algorithm>

namespace latemile::ui {
namespace {

const auto listKey = QStringLiteral("filming/lengths");
const auto lastKey = QStringLiteral("filming/last_length_cm");

QString translated(const char* text)
{
    return QCoreApplication::translate("CommonLengths", text);
}

std::vector<CommonLength> firstLengths()
{
    return {{translated(QT_TRANSLATE_NOOP("CommonLengths", "1 m pole")), 100.0},
            {translated(QT_TRANSLATE_NOOP("CommonLengths", "2 m pole")), 200.0},
            {translated(QT_TRANSLATE_NOOP("CommonLengths", "belt side")), 150.0}};
}

} // namespace

std::vector<CommonLength> commonLengths()
{
    const QSettings settings;
    if (!settings.contains(listKey)) {
        return firstLengths();
    }
    std::vector<CommonLength> lengths;
    const QVariantList kept = settings.value(listKey).toList();
    for (const QVariant& entry : kept) {
        const QVariantMap map = entry.toMap();
        const double cm = map.value(QStringLiteral("cm")).toDouble();
        if (cm > 0) {
            lengths.push_back({map.value(QStringLiteral("name")).toString(), cm});
        }
    }
    return lengths;
}

void keepCommonLength(const CommonLength& length)
{
    auto lengths = commonLengths();
    const auto found = std::ranges::find(lengths, length.name, &CommonLength::name);
    if (found == lengths.end()) {
        lengths.push_back(length);
    } else {
        found->cm = length.cm;
    }
    QVariantList kept;
    for (const CommonLength& one : lengths) {
        if (one.cm > 0) {
            kept.append(
                QVariantMap{{QStringLiteral("name"), one.name}, {QStringLiteral("cm"), one.cm}});
        }
    }
    QSettings().setValue(listKey, kept);
}

double lastLengthCm()
{
    const double cm = QSettings().value(lastKey, 200.0).toDouble();
    return cm > 0 ? cm : 200.0;
}

void rememberLastLength(double cm)
{
    QSettings().setValue(lastKey, cm);
}

} // namespace latemile::ui
