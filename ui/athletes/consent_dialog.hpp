// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/session.hpp"

#include <QDialog>

class QLabel;

namespace latemile::ui {

class ConsentFields;

/// Asks for the consent that is missing before a picture leaves the program.
class ConsentDialog final : public QDialog {
    Q_OBJECT
public:
    explicit ConsentDialog(const Athlete& athlete, QWidget* parent = nullptr);
    /// With the consent the coach noted.
    [[nodiscard]] const Athlete& athlete() const { return m_athlete; }

private:
    void accept() override;

    Athlete m_athlete;
    ConsentFields* m_fields;
    QLabel* m_told;
};

/// Why pictures of the athlete must not leave today, in the coach's language; empty: they may.
[[nodiscard]] QString whyNoConsentToday(const Athlete& athlete);
/// "Consent until 2027-08-29.", "Consent noted.", or why there is none.
[[nodiscard]] QString consentText(const Athlete& athlete);

} // namespace latemile::ui
