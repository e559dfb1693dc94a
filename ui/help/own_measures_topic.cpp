// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/help/own_measures_topic.hpp"

#include "core/measures/formula_forms.hpp"
#include "core/measures/own_measures.hpp"
#include "ui/keys/keys.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"

#include <QCoreApplication>
#include <QStringList>

namespace latemile::ui {
namespace {

QString translated(const char* text)
{
    return QCoreApplication::translate("Help", text);
}

/// "lean POINT to POINT: degrees off plumb, ...", a line a form.
QString formsText()
{
    QStringList lines;
    for (const FormulaForm& form : formulaForms()) {
        lines.append(fromUtf8(form.pattern) + QStringLiteral(": ") + fromUtf8(form.meaning) + u'.');
    }
    return lines.join(u'\n');
}

QString exampleText(const OwnMeasure& example)
{
    const QString unit = unitText(example.unit);
    return QStringLiteral("%1\n%2, %3: %4")
        .arg(fromUtf8(example.formula), fromUtf8(example.name), unit, fromUtf8(example.meaning));
}

} // namespace

HelpTopic ownMeasuresTopic(const Keys& keys)
{
    HelpTopic topic{.id = QStringLiteral("own_measures"),
                    .title = translated(QT_TRANSLATE_NOOP("Help", "Own measures")),
                    .measure = nullptr,
                    .rows = {},
                    .picture = nullptr,
                    .caption = {}};
    const auto add = [&topic](const QString& heading, const QString& text) {
        topic.rows.emplace_back(heading, text);
    };
    add(translated(QT_TRANSLATE_NOOP("Help", "What they are")),
        translated(QT_TRANSLATE_NOOP(
                       "Help", "A formula of your own over the points you mark: %1 on the Readings "
                               "page. It is read at every step with its error, compared, printed "
                               "and followed over the re-films like any other measure. Nobody has "
                               "published how well it repeats: mark a clip twice, blind, before "
                               "you build on it."))
            .arg(keys.textOf("readings.own")));
    add(translated(QT_TRANSLATE_NOOP("Help", "Values")), formsText());
    add(translated(QT_TRANSLATE_NOOP("Help", "Points")),
        capital(fromUtf8(landmarksInWords())) +
            translated(QT_TRANSLATE_NOOP("Help", ". Of the near side; filmed from behind or from "
                                                 "the front, write left or right before each.")));
    add(translated(QT_TRANSLATE_NOOP("Help", "When")),
        translated(QT_TRANSLATE_NOOP("Help", "Behind each value, or behind the bracket it is in, "
                                             "stands \"at\" and one of %1. PHASE is one of %2."))
            .arg(fromUtf8(instantsInWords()), fromUtf8(phasesInWords())));
    add(translated(QT_TRANSLATE_NOOP("Help", "Reckoning")),
        translated(QT_TRANSLATE_NOOP("Help", "+ - * / and brackets, with plain numbers such as "
                                             "100 or 0.5. Lengths and angles are not added to "
                                             "each other; a length over a length is a plain "
                                             "number, in % when it is taken 100 times.")));
    for (const OwnMeasure& example : exampleOwnMeasures()) {
        add(translated(QT_TRANSLATE_NOOP("Help", "Example")), exampleText(example));
    }
    return topic;
}

} // namespace latemile::ui
