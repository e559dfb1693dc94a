// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/help/help_topics.hpp"

#include <QWidget>

class QLabel;
class QLineEdit;
class QListWidget;
class QScrollArea;

namespace latemile::ui {

/// Help in the window: the way of a session, the keys, and every measure with its picture.
class HelpPage final : public QWidget {
    Q_OBJECT
public:
    explicit HelpPage(const Keys& keys, QWidget* parent = nullptr);

    /// By the id of a topic; an unknown one shows the first.
    void showTopic(const QString& id);
    [[nodiscard]] QLineEdit& search() const { return *m_search; }
    [[nodiscard]] QListWidget& list() const { return *m_list; }
    [[nodiscard]] QString shownTopic() const;

signals:
    void keysWanted();
    void left(); ///< Esc: back to the work

protected:
    void showEvent(QShowEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    QWidget* buildSide();
    void fill();
    void choose(const QString& id);
    void showChosen();
    QWidget* textOf(const HelpTopic& topic);

    const Keys& m_keys;
    std::vector<HelpTopic> m_topics;
    QLineEdit* m_search{};
    QListWidget* m_list{};
    QScrollArea* m_text;
};

} // namespace latemile::ui
