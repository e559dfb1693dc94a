// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/steps.hpp"
#include "ui/compare/compare_tool.hpp"

#include <QElapsedTimer>
#include <QTimer>
#include <QWidget>

#include <optional>

class QButtonGroup;
class QComboBox;
class QSlider;
class QToolButton;

namespace latemile::ui {

/// What all pictures of the comparison show together: an instant, or a share of the step, played or
/// dragged; and how the ghost is laid.
class CompareLocks final : public QWidget {
    Q_OBJECT
public:
    explicit CompareLocks(QWidget* parent = nullptr);

    /// None: the share of the step holds.
    [[nodiscard]] std::optional<Instant> instant() const;
    [[nodiscard]] double phase() const;
    [[nodiscard]] GhostAt ghost() const;
    void setPlaying(bool playing);

signals:
    void changed(); ///< what is to be shown
    void ghostChanged();

private:
    void buildInstants();
    void buildPhase();
    void leaveInstant();

    QButtonGroup* m_instants;
    QToolButton* m_play;
    QSlider* m_phase;
    QComboBox* m_ghost;
    QTimer m_tick;
    QElapsedTimer m_clock;
    double m_phaseAtStart{};
};

} // namespace latemile::ui
