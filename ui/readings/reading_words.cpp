// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/readings/reading_words.hpp"

#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"

#include <QCoreApplication>
#include <QStringList>

namespace latemile::ui {
namespace {

QString translated(const char* text)
{
    return QCoreApplication::translate("ReadingWords", text);
}

QString sharesOf(const ErrorShares& shares)
{
    const double all = shares.marks + shares.events + shares.scale + shares.plumb;
    if (all <= 0) {
        return {};
    }
    QStringList parts;
    const auto add = [&](const QString& name, double share) {
        if (share / all >= 0.005) {
            parts.append(QStringLiteral("%1 %2 %").arg(name, numberText(100 * share / all, 0)));
        }
    };
    add(translated(QT_TRANSLATE_NOOP("ReadingWords", "marks")), shares.marks);
    add(translated(QT_TRANSLATE_NOOP("ReadingWords", "contact and toe-off")), shares.events);
    add(translated(QT_TRANSLATE_NOOP("ReadingWords", "scale")), shares.scale);
    add(translated(QT_TRANSLATE_NOOP("ReadingWords", "plumb line")), shares.plumb);
    return translated(QT_TRANSLATE_NOOP("ReadingWords", "Of the error: ")) +
           parts.join(QStringLiteral(", ")) + u'.';
}

} // namespace

QString tellReading(const Reading& reading, const Measure& measure)
{
    QString text = fromUtf8(measure.name);
    if (reading.step) {
        text += QCoreApplication::translate("ReadingWords", ", step %1").arg(reading.step->value);
    }
    text += QStringLiteral(": ");
    if (!reading.value) {
        return text + fromUtf8(reading.reason);
    }
    text += valueText(*reading.value, reading.se.value_or(0.0), measure) + QStringLiteral(". ");
    text += sharesOf(reading.shares);
    if (!reading.confirmed) {
        text += u' ' + translated(QT_TRANSLATE_NOOP("ReadingWords",
                                                    "Not all its marks are confirmed: it enters "
                                                    "no mean."));
    }
    if (!reading.reason.empty()) {
        text += u' ' + fromUtf8(reading.reason);
    }
    return text;
}

QString tellMeasure(const Measure& measure)
{
    return QCoreApplication::translate("ReadingWords", "%1\n\nAbove zero: %2.\n\nTraps: %3\n\n%4")
        .arg(fromUtf8(measure.meaning), fromUtf8(measure.positive), fromUtf8(measure.traps),
             fromUtf8(measure.source));
}

} // namespace latemile::ui
