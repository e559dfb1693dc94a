// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/session.hpp"

#include <QWidget>

class QCheckBox;
class QDateEdit;
class QLineEdit;

namespace latemile::ui {

/// Who agreed to the filming, when, and until when; for a minor the guardian's name.
class ConsentFields final : public QWidget {
    Q_OBJECT
public:
    explicit ConsentFields(const Athlete& athlete, QWidget* parent = nullptr);

    /// Puts what the fields say into the athlete: `minor` and `consent`.
    void putInto(Athlete& athlete) const;
    /// Ticks "given" with today's date, for whoever was asked for it just now.
    void begin();

private:
    void build();
    void enable();

    QCheckBox* m_minor;
    QCheckBox* m_given;
    QLineEdit* m_by;
    QDateEdit* m_date;
    QCheckBox* m_ends;
    QDateEdit* m_until;
};

} // namespace latemile::ui
