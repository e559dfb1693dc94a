// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/steps.hpp"
#include "ui/page/page_context.hpp"

#include <QElapsedTimer>
#include <QTimer>
#include <QWidget>

class QButtonGroup;
class QCheckBox;
class QLabel;
class QSlider;
class QTableView;
class QToolButton;

namespace latemile::ui {

class CompareSide;
class ComparisonTable;

/// Fresh against fatigued: two pictures at the same instant or the same share of a step, and the
/// comparison below.
class ComparePage final : public QWidget {
    Q_OBJECT
public:
    explicit ComparePage(const PageContext& context, QWidget* parent = nullptr);

    [[nodiscard]] const ComparisonTable& comparison() const { return *m_model; }

protected:
    void hideEvent(QHideEvent* event) override;

private:
    QWidget* buildLocks();
    QWidget* buildTable();
    void setClips();
    void chooseAlikeSteps();
    void compareNow();
    void tellRow(const QModelIndex& index);
    void showInstant(Instant instant);
    void showPhase();
    void showBoth();
    void tellGhosts();
    void setPlaying(bool playing);

    PageContext m_context;
    CompareSide* m_fresh;
    CompareSide* m_fatigued;
    QButtonGroup* m_instants{};
    QSlider* m_phase{};
    QToolButton* m_play{};
    QCheckBox* m_ghost{};
    QLabel* m_told{};
    ComparisonTable* m_model{};
    QTableView* m_table{};
    QTimer m_tick;
    QElapsedTimer m_clock;
    bool m_chosenOnce{};
};

} // namespace latemile::ui
