// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/refilms/refilm_plot.hpp"

#include <QScrollArea>

#include <vector>

class QGridLayout;

namespace latemile::ui {

/// What one small plot shows; all of it outlives the call of setPlots.
struct PlotPlan {
    const Measure* measure{};
    const Course* fresh{};
    const Course* fatigued{};
};

/// The small plots in as many columns as go in, each under its measure's name.
class RefilmPlots final : public QScrollArea {
    Q_OBJECT
public:
    explicit RefilmPlots(QWidget* parent = nullptr);

    void setPlots(const std::vector<PlotPlan>& plans, const std::vector<CueSpan>& cues);
    [[nodiscard]] int count() const { return static_cast<int>(m_cards.size()); }

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    QWidget* cardOf(const PlotPlan& plan, const std::vector<CueSpan>& cues);
    void arrange();

    QWidget* m_inside;
    QGridLayout* m_grid;
    std::vector<QWidget*> m_cards;
    int m_columns{};
};

} // namespace latemile::ui
