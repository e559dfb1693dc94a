// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/athletes/consent_fields.hpp"

#include "ui/page/labels.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QCheckBox>
#include <QDateEdit>
#include <QGridLayout>
#include <QLineEdit>

namespace latemile::ui {
namespace {

QDate dateOf(const std::string& iso, QDate otherwise)
{
    const QDate date = QDate::fromString(fromUtf8(iso), Qt::ISODate);
    return date.isValid() ? date : otherwise;
}

std::string isoOf(const QDateEdit& field)
{
    return field.date().toString(Qt::ISODate).toStdString();
}

QDateEdit* dateField(QDate date, const QString& name, QWidget* parent)
{
    auto* field = new QDateEdit(date, parent);
    field->setDisplayFormat(QStringLiteral("d MMM yyyy"));
    field->setCalendarPopup(true);
    field->setAccessibleName(name);
    return field;
}

} // namespace

ConsentFields::ConsentFields(const Athlete& athlete, QWidget* parent)
    : QWidget(parent), m_minor(new QCheckBox(tr("A minor: a guardian gives the consent"), this)),
      m_given(new QCheckBox(tr("Agreed to be filmed and shown on a sheet"), this)),
      m_by(new QLineEdit(this))
{
    const Consent consent = athlete.consent.value_or(Consent{});
    const QDate today = QDate::currentDate();
    const QDate given = dateOf(consent.date, today);
    m_date = dateField(given, tr("Consent given on"), this);
    m_ends = new QCheckBox(tr("Holds until"), this);
    m_until = dateField(dateOf(consent.until, given.addYears(1)), tr("Consent holds until"), this);
    m_minor->setChecked(athlete.minor);
    m_given->setChecked(athlete.consent.has_value());
    m_by->setText(fromUtf8(consent.givenBy));
    m_ends->setChecked(!consent.until.empty());
    build();
    connect(m_given, &QCheckBox::toggled, this, &ConsentFields::enable);
    connect(m_ends, &QCheckBox::toggled, this, &ConsentFields::enable);
    connect(m_minor, &QCheckBox::toggled, this, &ConsentFields::enable);
    enable();
}

void ConsentFields::build()
{
    m_by->setAccessibleName(tr("Consent given by"));
    auto* grid = new QGridLayout(this);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setSpacing(gridStep);
    grid->addWidget(m_minor, 0, 0, 1, 2);
    grid->addWidget(m_given, 1, 0, 1, 2);
    grid->addWidget(plainLabel(tr("Given by"), this), 2, 0);
    grid->addWidget(m_by, 2, 1);
    grid->addWidget(plainLabel(tr("Given on"), this), 3, 0);
    grid->addWidget(m_date, 3, 1);
    grid->addWidget(m_ends, 4, 0);
    grid->addWidget(m_until, 4, 1);
    grid->setColumnStretch(1, 1);
}

void ConsentFields::enable()
{
    const bool given = m_given->isChecked();
    m_by->setEnabled(given);
    m_by->setPlaceholderText(m_minor->isChecked() ? tr("The guardian's name")
                                                  : tr("The athlete's own name"));
    m_date->setEnabled(given);
    m_ends->setEnabled(given);
    m_until->setEnabled(given && m_ends->isChecked());
}

void ConsentFields::begin()
{
    if (!m_given->isChecked()) {
        m_given->setChecked(true);
        m_date->setDate(QDate::currentDate());
    }
    m_by->setFocus();
}

void ConsentFields::putInto(Athlete& athlete) const
{
    athlete.minor = m_minor->isChecked();
    if (!m_given->isChecked()) {
        athlete.consent.reset();
        return;
    }
    athlete.consent = Consent{.givenBy = m_by->text().trimmed().toStdString(),
                              .asGuardian = m_minor->isChecked(),
                              .date = isoOf(*m_date),
                              .until = m_ends->isChecked() ? isoOf(*m_until) : std::string()};
}

} // namespace latemile::ui
