// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPointer>
#include <QWidget>

class QLabel;
class QToolButton;

namespace latemile::ui {

class ElidedLabel;
class SessionDocument;

/// Whose session is on the table, whether it is saved, and undo and redo by name.
class SessionBar final : public QWidget {
    Q_OBJECT
public:
    explicit SessionBar(QWidget* parent = nullptr);

    void setSession(SessionDocument* session);
    void setNamesHidden(bool hidden);

signals:
    void undoWanted();
    void redoWanted();

private:
    void tell();
    void tellHistory();
    void tellSaved();

    QPointer<SessionDocument> m_session;
    bool m_namesHidden{};
    ElidedLabel* m_name;
    QLabel* m_date;
    QLabel* m_saved;
    QToolButton* m_undo;
    QToolButton* m_redo;
};

} // namespace latemile::ui
