// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPointer>
#include <QWidget>

class QLabel;
class QPushButton;

namespace latemile::ui {

class SessionDocument;

/// Above every page: what the coach has to know about the files of the open session, with an answer
/// where one is asked for. Edits of an earlier run that can be taken over; that somebody else has
/// the session open; that another version was kept. Hidden as a rule.
class NoticeLine final : public QWidget {
    Q_OBJECT
public:
    explicit NoticeLine(QWidget* parent = nullptr);
    void setSession(SessionDocument* session);

    [[nodiscard]] const QLabel& text() const { return *m_text; }
    [[nodiscard]] QPushButton& first() const { return *m_first; }
    [[nodiscard]] QPushButton& second() const { return *m_second; }

signals:
    void recoverWanted();
    void leaveOutWanted();
    void againWanted();

private:
    enum class About { Nothing, Recovery, ReadOnly, Remark };
    [[nodiscard]] About about() const;
    [[nodiscard]] QString words() const;
    void tell();
    void tellRefused();
    void answer();

    QPointer<SessionDocument> m_session;
    QLabel* m_text;
    QPushButton* m_first;
    QPushButton* m_second;
};

} // namespace latemile::ui
