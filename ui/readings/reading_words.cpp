// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/readings/reading_words.hpp"

#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"

#include <QCoreApplication>
#include <QStringList>

#include <cmath>

namespace latemile::ui {
namespace {

QString translated(const char* text)
{
    return QCoreApplication::translate("ReadingWords", text);
}

/// One more place than the measure shows: a source is smaller than the whole.
QString sourceText(const QString& name, double share, double all, const Measure& measure)
{
    return QStringLiteral("%1 %2 (%3 %)")
        .arg(name, numberText(std::sqrt(share), measure.decimals + 1),
             numberText(100 * share / all, 0));
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
    text += roundedText(*reading.value, reading.se, measure) + u'.';
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

QString tellSources(const Reading& reading, const Measure& measure)
{
    const ErrorShares& shares = reading.shares;
    const double all = shares.sum();
    if (!reading.se || all <= 0) {
        return {};
    }
    QStringList parts;
    const auto add = [&](const char* name, double share) {
        if (share / all >= 0.005) {
            parts.append(sourceText(translated(name), share, all, measure));
        }
    };
    add(QT_TRANSLATE_NOOP("ReadingWords", "marks"), shares.marks);
    add(QT_TRANSLATE_NOOP("ReadingWords", "contact and toe-off"), shares.events);
    add(QT_TRANSLATE_NOOP("ReadingWords", "scale"), shares.scale);
    add(QT_TRANSLATE_NOOP("ReadingWords", "plumb line"), shares.plumb);
    add(QT_TRANSLATE_NOOP("ReadingWords", "belt speed"), shares.belt);
    const QString text =
        translated(QT_TRANSLATE_NOOP("ReadingWords", "Error ± %1: %2."))
            .arg(errorText(*reading.se, measure), parts.join(QStringLiteral(", ")));
    return parts.size() < 2
               ? text
               : text + u' ' +
                     translated(QT_TRANSLATE_NOOP("ReadingWords", "They add in quadrature."));
}

QString tellMeasure(const Measure& measure)
{
    return QCoreApplication::translate("ReadingWords", "%1\n\nAbove zero: %2.\n\nTraps: %3\n\n%4")
        .arg(fromUtf8(measure.meaning), fromUtf8(measure.positive), fromUtf8(measure.traps),
             fromUtf8(measure.source));
}

} // namespace latemile::ui
