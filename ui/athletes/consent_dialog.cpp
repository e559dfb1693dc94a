// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/athletes/consent_dialog.hpp"

#include "ui/athletes/consent_fields.hpp"
#include "ui/page/labels.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QDate>
#include <QDialogButtonBox>
#include <QPushButton>
#include <QVBoxLayout>

namespace latemile::ui {

QString whyNoConsentToday(const Athlete& athlete)
{
    const std::string today = QDate::currentDate().toString(Qt::ISODate).toStdString();
    return fromUtf8(whyNoConsent(athlete, today));
}

ConsentDialog::ConsentDialog(const Athlete& athlete, QWidget* parent)
    : QDialog(parent), m_athlete(athlete), m_fields(new ConsentFields(athlete, this)),
      m_told(plainLabel({}, this))
{
    setWindowTitle(tr("Consent first"));
    auto* why = plainLabel(
        tr("%1 The sheet shows pictures of a person. Ask, then note here who agreed and when.")
            .arg(whyNoConsentToday(athlete)),
        this);
    why->setWordWrap(true);
    m_told->setWordWrap(true);
    setState(*m_told, "bad");
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel, this);
    auto* note = new QPushButton(tr("Note the consent"), buttons);
    note->setProperty("rank", "main");
    buttons->addButton(note, QDialogButtonBox::AcceptRole);
    note->setDefault(true);
    connect(buttons, &QDialogButtonBox::accepted, this, &ConsentDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(2 * gridStep, 2 * gridStep, 2 * gridStep, 2 * gridStep);
    column->setSpacing(2 * gridStep);
    column->addWidget(why);
    column->addWidget(m_fields);
    column->addWidget(m_told);
    column->addWidget(buttons);
    setMinimumWidth(52 * gridStep);
    m_fields->begin();
}

void ConsentDialog::accept()
{
    m_fields->putInto(m_athlete);
    const QString missing = whyNoConsentToday(m_athlete);
    m_told->setText(missing);
    if (missing.isEmpty()) {
        QDialog::accept();
    }
}

QString consentText(const Athlete& athlete)
{
    const QString missing = whyNoConsentToday(athlete);
    if (!missing.isEmpty()) {
        return missing;
    }
    return athlete.consent->until.empty()
               ? ConsentDialog::tr("Consent noted.")
               : ConsentDialog::tr("Consent until %1.").arg(fromUtf8(athlete.consent->until));
}

} // namespace latemile::ui
