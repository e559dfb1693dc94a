// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/text/numbers.hpp"

#include "core/rounding.hpp"

namespace latemile::ui {

QString numberText(double value, int decimals)
{
    QString text = QString::number(value, 'f', decimals);
    // "-0.0" tells a sign that the number shown does not have.
    if (text.toDouble() == 0.0 && text.startsWith(u'-')) {
        text.remove(0, 1);
    }
    return text.replace(u'-', QChar(0x2212));
}

QString withTrueMinus(QString number)
{
    return number.replace(u'-', QChar(0x2212));
}

QString unitText(Unit unit)
{
    switch (unit) {
    case Unit::Centimetre:
        return QStringLiteral("cm");
    case Unit::Metre:
        return QStringLiteral("m");
    case Unit::Degree:
        return QStringLiteral("°");
    case Unit::Percent:
        return QStringLiteral("%");
    case Unit::Millisecond:
        return QStringLiteral("ms");
    case Unit::StepsPerMinute:
        return QStringLiteral("steps/min");
    case Unit::KilonewtonPerMetre:
        return QStringLiteral("kN/m");
    case Unit::None:
        break;
    }
    return {};
}

namespace {

QString withUnit(const QString& number, Unit unit)
{
    const QString symbol = unitText(unit);
    if (symbol.isEmpty() || unit == Unit::Degree) {
        return number + symbol;
    }
    return number + QChar(0x00a0) + symbol;
}

} // namespace

QString valueText(double value, const Measure& measure)
{
    return withUnit(numberText(value, measure.decimals), measure.unit);
}

QString valueText(double value, double error, const Measure& measure)
{
    const QString number = numberText(value, measure.decimals) + QStringLiteral(" ± ") +
                           numberText(error, measure.decimals);
    return withUnit(number, measure.unit);
}

QString roundedText(double value, std::optional<double> error, const Measure& measure)
{
    const RoundedPair pair = roundedTogether(value, error.value_or(0.0), measure.decimals);
    QString number = QString::fromStdString(pair.value);
    if (error) {
        number += QStringLiteral(" ± ") + QString::fromStdString(pair.error);
    }
    return withUnit(number.replace(u'-', QChar(0x2212)), measure.unit);
}

QString errorText(double error, const Measure& measure)
{
    return withUnit(QString::fromStdString(roundedTogether(0.0, error, measure.decimals).error),
                    measure.unit);
}

QString timeText(Seconds time)
{
    return numberText(time.count(), 3) + QChar(0x00a0) + u's';
}

QString millisecondsText(Seconds time)
{
    const double milliseconds = time.count() * 1000.0;
    return (milliseconds >= 0 ? QStringLiteral("+") : QString()) + numberText(milliseconds, 1) +
           QChar(0x00a0) + QStringLiteral("ms");
}

} // namespace latemile::ui
