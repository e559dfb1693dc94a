// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/readings/reading_words.hpp"

#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"

#include <QCoreApplication>
#include <QStringList>

#include <algorithm>
#include <cmath>

namespace latemile::ui {
namespace {

/// Of what would help most; more would be read by nobody.
constexpr std::size_t remediesTold = 2;

QString translated(const char* text)
{
    return QCoreApplication::translate("ReadingWords", text);
}

/// One more place than the measure shows: a source is smaller than the whole.
QString sourceText(const ErrorSource& source, const Measure& measure)
{
    return QStringLiteral("%1 %2 (%3 %)")
        .arg(fromUtf8(source.name), numberText(std::sqrt(source.variance), measure.decimals + 1),
             numberText(100 * source.share, 0));
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

QString tellSources(const Explanation& explanation, const Measure& measure)
{
    if (!explanation.se) {
        return {};
    }
    QStringList parts;
    for (const ErrorSource& source : explanation.sources) {
        if (source.share >= 0.005) {
            parts.append(sourceText(source, measure));
        }
    }
    QString text = translated(QT_TRANSLATE_NOOP("ReadingWords", "Error ± %1: %2."))
                       .arg(errorText(*explanation.se, measure), parts.join(QStringLiteral(", ")));
    if (parts.size() > 1) {
        text += u' ' + translated(QT_TRANSLATE_NOOP("ReadingWords", "They add in quadrature."));
    }
    for (std::size_t i = 0; i < std::min(remediesTold, explanation.remedies.size()); ++i) {
        text += (i == 0 ? u'\n' : u' ') + fromUtf8(explanation.remedies[i].sentence);
    }
    return text;
}

QString tellMeanSources(const Explanation& explanation, const Summary& summary,
                        const Measure& measure)
{
    const QString told = tellSources(explanation, measure);
    if (!explanation.se || errorText(*explanation.se, measure) == errorText(summary.se, measure)) {
        return told;
    }
    return told + u'\n' +
           translated(QT_TRANSLATE_NOOP("ReadingWords",
                                        "The steps differ less than the errors of their marks "
                                        "would make them: from their spread alone the table "
                                        "has ± %1."))
               .arg(errorText(summary.se, measure));
}

QString tellMeasure(const Measure& measure)
{
    return QCoreApplication::translate("ReadingWords", "%1\n\nAbove zero: %2.\n\nTraps: %3\n\n%4")
        .arg(fromUtf8(measure.meaning), fromUtf8(measure.positive), fromUtf8(measure.traps),
             fromUtf8(measure.source));
}

} // namespace latemile::ui
