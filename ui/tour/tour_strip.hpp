// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QFrame>

class QLabel;
class QPushButton;

namespace latemile::ui {

/// A slim strip under the page that leads from page to page; the pages stay usable meanwhile.
class TourStrip final : public QFrame {
    Q_OBJECT
public:
    explicit TourStrip(QWidget* parent = nullptr);

    void begin();
    void leave();
    [[nodiscard]] int stop() const { return m_at; }
    void goTo(int stop);

signals:
    void pageWanted(const QString& id);

protected:
    void keyPressEvent(QKeyEvent* event) override;

private:
    int m_at{};
    QLabel* m_title;
    QLabel* m_text;
    QPushButton* m_back;
    QPushButton* m_on;
    QPushButton* m_leave;
};

} // namespace latemile::ui
