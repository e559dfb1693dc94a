// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/compare/repeat_result.hpp"

#include <QWidget>

#include <optional>

class QCustomPlot;
class QLabel;
class QTableWidget;

namespace latemile::ui {

/// What a repeat told: error of a click by landmark, repeatability by measure, and of the measure
/// chosen the plot of differences against means.
class RepeatView final : public QWidget {
    Q_OBJECT
public:
    explicit RepeatView(QWidget* parent = nullptr);

    void setResult(RepeatResult result);
    [[nodiscard]] QTableWidget& landmarks() const { return *m_landmarks; }
    [[nodiscard]] QTableWidget& measures() const { return *m_measures; }

protected:
    void changeEvent(QEvent* event) override;

private:
    void fillLandmarks();
    void fillMeasures();
    void drawChosen();

    std::optional<RepeatResult> m_result;
    QTableWidget* m_landmarks;
    QTableWidget* m_measures;
    QLabel* m_caption;
    QCustomPlot* m_plot;
};

} // namespace latemile::ui
