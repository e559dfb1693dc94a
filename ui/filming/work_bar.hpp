// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QTimer>
#include <QWidget>

#include <vector>

class QLabel;
class QProgressBar;
class QPushButton;

namespace latemile::ui {

/// What the page is waiting for, how far it is, and a button that stops it. Shows itself when a
/// piece of work takes over half a second; the piece begun last is the one shown.
class WorkBar final : public QWidget {
    Q_OBJECT
public:
    explicit WorkBar(QWidget* parent = nullptr);

    /// Begins a piece of work or tells how far it is.
    void setWork(const QString& id, const QString& name, int percent);
    void endWork(const QString& id);
    [[nodiscard]] bool isBusy() const { return !m_works.empty(); }
    [[nodiscard]] QPushButton& stopButton() const { return *m_stop; }

signals:
    void stopWanted(const QString& id);

private:
    struct Work {
        QString id;
        QString name;
        int percent{};
    };
    void tell();

    std::vector<Work> m_works;
    QTimer m_wait;
    QLabel* m_name;
    QProgressBar* m_progress;
    QPushButton* m_stop;
};

} // namespace latemile::ui
