// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/athletes/library.hpp"

#include <QTableWidget>

#include <vector>

namespace latemile::ui {

/// An athlete's sessions, the newest first, each with what is still to do.
class SessionTable final : public QTableWidget {
    Q_OBJECT
public:
    explicit SessionTable(QWidget* parent = nullptr);

    /// The first of them is chosen.
    void setSessions(std::vector<SessionEntry> sessions);
    [[nodiscard]] const SessionEntry* chosen() const; ///< null: there is none

private:
    std::vector<SessionEntry> m_sessions;
};

} // namespace latemile::ui
