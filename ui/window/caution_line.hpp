// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLabel>
#include <QPointer>

namespace latemile::ui {

class SessionDocument;

/// Above every page: that pain or a red flag was noted and a clinician comes first. Hidden while
/// nothing of the kind was.
class CautionLine final : public QLabel {
    Q_OBJECT
public:
    explicit CautionLine(QWidget* parent = nullptr);
    void setSession(SessionDocument* session);

private:
    void follow();
    void tell();

    QPointer<SessionDocument> m_session;
};

} // namespace latemile::ui
