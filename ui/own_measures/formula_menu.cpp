// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own_measures/formula_menu.hpp"

#include "core/measures/formula_forms.hpp"
#include "ui/own_measures/formula_field.hpp"
#include "ui/text/words.hpp"

#include <QCoreApplication>
#include <QMenu>

namespace latemile::ui {
namespace {

QString translated(const char* text)
{
    return QCoreApplication::translate("FormulaMenu", text);
}

void add(QMenu& menu, FormulaField& field, const QString& shown, const QString& words)
{
    menu.addAction(shown, &field, [&field, words] { field.insertWords(words); });
}

/// A word that people know by another name shows both: "front of pelvis   asis".
void addNamed(QMenu& menu, FormulaField& field, const QString& name, std::string_view word)
{
    const QString written = fromUtf8(word);
    add(menu, field, name == written ? written : QStringLiteral("%1\t%2").arg(written, name),
        written);
}

} // namespace

QMenu* formulaMenu(FormulaField& field, QWidget* parent)
{
    auto* menu = new QMenu(parent);
    QMenu* points = menu->addMenu(translated(QT_TRANSLATE_NOOP("FormulaMenu", "Point")));
    for (std::size_t i = 0; i < landmarkCount; ++i) {
        const auto landmark = static_cast<Landmark>(i);
        addNamed(*points, field, wordFor(landmark), nameOf(landmark));
    }
    QMenu* instants = menu->addMenu(translated(QT_TRANSLATE_NOOP("FormulaMenu", "Instant")));
    for (std::size_t i = 0; i < instantCount; ++i) {
        const QString at = QStringLiteral("at ") + fromUtf8(nameOf(static_cast<Instant>(i)));
        add(*instants, field, at, at);
    }
    QMenu* phases = menu->addMenu(translated(QT_TRANSLATE_NOOP("FormulaMenu", "Phase")));
    for (const auto phase : formulaPhases()) {
        add(*phases, field, fromUtf8(nameOf(phase)), fromUtf8(nameOf(phase)));
    }
    menu->addSeparator();
    for (const FormulaForm& form : formulaForms()) {
        const QString pattern = fromUtf8(form.pattern);
        add(*menu, field, pattern, pattern);
        menu->actions().back()->setToolTip(fromUtf8(form.meaning).toHtmlEscaped());
    }
    menu->setToolTipsVisible(true);
    return menu;
}

} // namespace latemile::ui
