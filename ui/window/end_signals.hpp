// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>

namespace latemile::ui {

/// Turns the system's wish that the program end (SIGTERM at log-out, SIGHUP with its terminal,
/// SIGINT) into a signal of Qt, so that it closes as by hand. One in a program; while it lives.
class EndSignals final : public QObject {
    Q_OBJECT
public:
    EndSignals();
    ~EndSignals() override;

signals:
    void came();
};

} // namespace latemile::ui
