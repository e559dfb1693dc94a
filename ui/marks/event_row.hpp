// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

class QPushButton;

namespace latemile::ui {

class Keys;
class MarkingFlow;
class MarksPage;

/// The buttons that set contacts and toe-offs on the frame shown, with their keys.
class EventRow final : public QWidget {
    Q_OBJECT
public:
    EventRow(MarksPage& page, Keys& keys);

    /// Names the event that is due next.
    void tellDue(const MarkingFlow& flow);

private:
    Keys& m_keys;
    QPushButton* m_due;
};

} // namespace latemile::ui
