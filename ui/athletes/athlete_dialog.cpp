// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/athletes/athlete_dialog.hpp"

#include "ui/athletes/consent_fields.hpp"
#include "ui/page/labels.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QDialogButtonBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QFrame>
#include <QLineEdit>

#include <utility>

namespace latemile::ui {
namespace {

/// Below the lowest a document may hold stands "not known".
QDoubleSpinBox* field(const std::optional<double>& value, double lowest, double highest,
                      const QString& unit, QWidget* parent)
{
    auto* made = new QDoubleSpinBox(parent);
    made->setRange(lowest - 1, highest);
    made->setDecimals(1);
    made->setSuffix(unit);
    made->setSpecialValueText(AthleteDialog::tr("not known"));
    made->setValue(value.value_or(made->minimum()));
    return made;
}

std::optional<double> valueOf(const QDoubleSpinBox& field)
{
    return field.value() <= field.minimum() ? std::nullopt : std::optional(field.value());
}

} // namespace

AthleteDialog::AthleteDialog(const Athlete& athlete, bool isNew, Take take, QWidget* parent)
    : QDialog(parent), m_athlete(athlete), m_take(std::move(take)),
      m_name(new QLineEdit(fromUtf8(athlete.name), this)),
      m_code(new QLineEdit(fromUtf8(athlete.code), this)),
      m_height(field(athlete.heightCm, 50, 260, tr(" cm"), this)),
      m_leg(field(athlete.legLengthCm, 20, 160, tr(" cm"), this)),
      m_mass(field(athlete.massKg, 10, 300, tr(" kg"), this)),
      m_note(new QLineEdit(fromUtf8(athlete.note), this)),
      m_consent(new ConsentFields(athlete, this)), m_told(plainLabel({}, this))
{
    setWindowTitle(isNew ? tr("New athlete") : tr("Athlete"));
    m_code->setEnabled(isNew);
    m_told->setWordWrap(true);
    setState(*m_told, "bad");
    auto* form = new QFormLayout(this);
    form->setContentsMargins(2 * gridStep, 2 * gridStep, 2 * gridStep, 2 * gridStep);
    form->setSpacing(gridStep);
    m_code->setToolTip(tr("Names the folder, and stands for the name where names are hidden"));
    form->addRow(tr("Name"), m_name);
    form->addRow(tr("Code"), m_code);
    form->addRow(tr("Height"), m_height);
    form->addRow(tr("Leg, hip to floor"), m_leg);
    form->addRow(tr("Mass"), m_mass);
    form->addRow(tr("Note"), m_note);
    form->addRow(rule(this));
    form->addRow(m_consent);
    form->addRow(m_told);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel, this);
    connect(buttons, &QDialogButtonBox::accepted, this, &AthleteDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    form->addRow(buttons);
    setMinimumWidth(52 * gridStep);
}

void AthleteDialog::accept()
{
    m_athlete.name = m_name->text().trimmed().toStdString();
    m_athlete.code = m_code->text().trimmed().toStdString();
    m_athlete.heightCm = valueOf(*m_height);
    m_athlete.legLengthCm = valueOf(*m_leg);
    m_athlete.massKg = valueOf(*m_mass);
    m_athlete.note = m_note->text().toStdString();
    m_consent->putInto(m_athlete);
    if (m_athlete.consent && m_athlete.consent->givenBy.empty()) {
        m_told->setText(tr("Say who gave the consent, or take its tick away."));
        return;
    }
    if (const auto taken = m_take(m_athlete); !taken) {
        m_told->setText(fromUtf8(taken.error().sentence));
        return;
    }
    QDialog::accept();
}

} // namespace latemile::ui
