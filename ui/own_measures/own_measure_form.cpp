// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own_measures/own_measure_form.hpp"

#include "core/measures/own_formula.hpp"
#include "ui/own_measures/formula_field.hpp"
#include "ui/own_measures/formula_menu.hpp"
#include "ui/page/labels.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QComboBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QMenu>
#include <QRegularExpression>
#include <QSpinBox>
#include <QToolButton>

#include <vector>

namespace latemile::ui {
namespace {

constexpr int longestId = 40;
constexpr int mostDecimals = 4;

std::vector<Unit> unitsOf(OwnFormula::Kind kind)
{
    switch (kind) {
    case OwnFormula::Kind::Length:
        return {Unit::Centimetre};
    case OwnFormula::Kind::Angle:
        return {Unit::Degree};
    case OwnFormula::Kind::Number:
        break;
    }
    return {Unit::Percent, Unit::None};
}

QString shownUnit(Unit unit)
{
    return unit == Unit::None ? OwnMeasureForm::tr("no unit") : unitText(unit);
}

} // namespace

QString idFromName(const QString& name)
{
    static const QRegularExpression accents(QStringLiteral("\\p{Mn}"));
    static const QRegularExpression others(QStringLiteral("[^a-z0-9]+"));
    static const QRegularExpression ends(QStringLiteral("^[_0-9]+|_+$"));
    QString id = name.toLower().normalized(QString::NormalizationForm_D);
    return id.remove(accents).replace(others, QStringLiteral("_")).remove(ends).left(longestId);
}

OwnMeasureForm::OwnMeasureForm(QWidget* parent)
    : QWidget(parent), m_name(new QLineEdit(this)), m_id(new QLineEdit(this)),
      m_formula(new FormulaField(this)), m_told(plainLabel({}, this)), m_unit(new QComboBox(this)),
      m_positive(new QLineEdit(this)), m_floor(new QDoubleSpinBox(this)),
      m_decimals(new QSpinBox(this)), m_feet(new QComboBox(this)), m_meaning(new QLineEdit(this))
{
    m_id->setMaxLength(longestId);
    m_id->setToolTip(tr("How files and sheets name it; they lose it when the id is changed later"));
    m_positive->setToolTip(tr("What more of it means, as a sheet says it: \"hand higher\""));
    m_floor->setRange(0.01, 1000.0);
    m_decimals->setRange(0, mostDecimals);
    m_feet->addItem(tr("of the near foot"), static_cast<int>(Feet::Near));
    m_feet->addItem(tr("of both feet, in equal numbers"), static_cast<int>(Feet::Together));
    m_feet->setToolTip(tr("Both feet for the upper body, which turns with the arms"));
    auto* form = new QFormLayout(this);
    form->setContentsMargins(0, 0, 0, 0);
    form->setSpacing(gridStep);
    form->addRow(tr("Name"), m_name);
    form->addRow(tr("Id"), m_id);
    buildFormula(*form);
    form->addRow(tr("Unit"), m_unit);
    form->addRow(tr("More of it means"), m_positive);
    form->addRow(tr("Worth a word from"), m_floor);
    form->addRow(tr("Decimals at most"), m_decimals);
    form->addRow(tr("Steps"), m_feet);
    form->addRow(tr("In one sentence"), m_meaning);
    hear();
}

void OwnMeasureForm::buildFormula(QFormLayout& form)
{
    m_told->setWordWrap(true);
    m_told->setAlignment(Qt::AlignTop);
    // Sentences come and go while a formula is typed: the fields below must not move with them.
    m_told->setFixedHeight(3 * fontMetrics().lineSpacing() + gridStep / 2);
    m_told->setAccessibleName(tr("What the formula gives, or what is wrong"));
    auto* insert = new QToolButton(this);
    insert->setText(tr("Insert…"));
    insert->setAccessibleName(tr("Insert words into the formula"));
    insert->setPopupMode(QToolButton::InstantPopup);
    insert->setMenu(formulaMenu(*m_formula, insert));
    auto* row = new QHBoxLayout;
    row->setSpacing(gridStep);
    row->addWidget(m_formula, 1);
    row->addWidget(insert, 0, Qt::AlignTop);
    form.addRow(tr("Formula"), row);
    form.addRow(QString(), m_told);
    setTabOrder(m_formula, insert);
}

void OwnMeasureForm::hear()
{
    connect(m_name, &QLineEdit::textEdited, this, &OwnMeasureForm::nameEdited);
    connect(m_id, &QLineEdit::textEdited, this, [this] {
        m_idFollows = false;
        fieldEdited();
    });
    connect(m_formula, &QPlainTextEdit::textChanged, this, &OwnMeasureForm::formulaEdited);
    connect(m_unit, &QComboBox::currentIndexChanged, this, &OwnMeasureForm::fieldEdited);
    connect(m_positive, &QLineEdit::textEdited, this, &OwnMeasureForm::fieldEdited);
    connect(m_floor, &QDoubleSpinBox::valueChanged, this, &OwnMeasureForm::fieldEdited);
    connect(m_decimals, &QSpinBox::valueChanged, this, &OwnMeasureForm::fieldEdited);
    connect(m_feet, &QComboBox::currentIndexChanged, this, &OwnMeasureForm::fieldEdited);
    connect(m_meaning, &QLineEdit::textEdited, this, &OwnMeasureForm::fieldEdited);
}

OwnMeasure OwnMeasureForm::measure() const
{
    return {.id = m_id->text().toStdString(),
            .name = m_name->text().trimmed().toStdString(),
            .formula = m_formula->formula(),
            .unit = static_cast<Unit>(m_unit->currentData().toInt()),
            .positive = m_positive->text().trimmed().toStdString(),
            .floor = m_floor->value(),
            .decimals = m_decimals->value(),
            .feet = static_cast<Feet>(m_feet->currentData().toInt()),
            .meaning = m_meaning->text().trimmed().toStdString()};
}

void OwnMeasureForm::setMeasure(const OwnMeasure& measure, bool idFollows)
{
    m_filling = true;
    m_idFollows = idFollows;
    m_name->setText(fromUtf8(measure.name));
    m_id->setText(fromUtf8(measure.id));
    m_formula->setFormula(measure.formula);
    offerUnits(measure.unit);
    m_positive->setText(fromUtf8(measure.positive));
    m_decimals->setValue(measure.decimals);
    m_floor->setValue(measure.floor);
    m_feet->setCurrentIndex(m_feet->findData(static_cast<int>(measure.feet)));
    m_meaning->setText(fromUtf8(measure.meaning));
    for (QLineEdit* line : {m_name, m_id, m_positive, m_meaning}) {
        line->setCursorPosition(0); // a long text shows its beginning
    }
    m_filling = false;
}

void OwnMeasureForm::tell(const std::optional<OwnFault>& fault, const QString& sentence)
{
    m_formula->setFault(fault ? fault->column : std::nullopt);
    setState(*m_told, fault ? "bad" : "");
    m_told->setText(sentence);
    m_told->setToolTip(sentence.toHtmlEscaped());
}

QString OwnMeasureForm::told() const
{
    return m_told->text();
}

void OwnMeasureForm::beginWithName()
{
    m_name->setFocus();
    m_name->selectAll();
}

void OwnMeasureForm::nameEdited()
{
    if (m_idFollows) {
        m_id->setText(idFromName(m_name->text()));
    }
    fieldEdited();
}

void OwnMeasureForm::formulaEdited()
{
    if (!m_filling) {
        offerUnits(measure().unit);
        fieldEdited();
    }
}

/// Those of what the formula gives; while it cannot be read, those there were.
void OwnMeasureForm::offerUnits(Unit wanted)
{
    const auto formula = parseFormula(m_formula->formula());
    const bool was = std::exchange(m_filling, true);
    if (formula || m_unit->count() == 0) {
        m_unit->clear();
        for (const Unit unit : formula ? unitsOf(formula->root.kind) : std::vector{wanted}) {
            m_unit->addItem(shownUnit(unit), static_cast<int>(unit));
        }
    }
    m_unit->setCurrentIndex(std::max(0, m_unit->findData(static_cast<int>(wanted))));
    m_floor->setSuffix(m_unit->currentData().toInt() == static_cast<int>(Unit::None)
                           ? QString()
                           : QChar(0x00a0) + m_unit->currentText());
    m_filling = was;
}

void OwnMeasureForm::fieldEdited()
{
    if (!m_filling) {
        emit edited();
    }
}

} // namespace latemile::ui
