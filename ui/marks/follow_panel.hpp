// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/quantities.hpp"

#include <QWidget>

#include <vector>

class QLabel;
class QListWidget;
class QPushButton;
class QToolButton;

namespace latemile::ui {

class Keys;
class WorkBar;

/// Under the step table: what the program does of the marking by itself (proposing, finding
/// contacts, following), how far it is, and what came of it.
class FollowPanel final : public QWidget {
    Q_OBJECT
public:
    explicit FollowPanel(Keys& keys, QWidget* parent = nullptr);

    [[nodiscard]] WorkBar& work() const { return *m_work; }
    /// One sentence, `state` as of setState, and the details behind it, which can be opened;
    /// `frames` where each of them leads, if they lead anywhere.
    void tell(const QString& sentence, const char* state, const QStringList& details = {},
              std::vector<FrameNumber> frames = {});
    [[nodiscard]] QString told() const;
    [[nodiscard]] QStringList details() const;
    /// "Follow marks" before, "Follow again" once there are followed marks.
    void setFollowed(bool followed);
    /// "Propose landmarks" before, "Propose again" once there are proposals.
    void setProposed(bool proposed);

signals:
    void proposeWanted();
    void exchangeWanted();
    void feetWanted();
    void followWanted();
    void contactsWanted();
    void acceptContactsWanted();
    void frameWanted(latemile::FrameNumber frame);

private:
    Keys& m_keys;
    QPushButton* m_propose;
    QPushButton* m_follow;
    WorkBar* m_work;
    QLabel* m_told;
    QToolButton* m_open;
    QListWidget* m_list;
    std::vector<FrameNumber> m_frames; ///< where the rows of the list lead
};

} // namespace latemile::ui
