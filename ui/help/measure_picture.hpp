// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/measure.hpp"

#include <QRectF>
#include <QString>
#include <QWidget>

class QPainter;

namespace latemile::ui {

/// Where on a runner a measure is read, drawn from the table of measures: a figure from the side or
/// from behind with the landmarks it needs ringed, the lines it is drawn with and its value there,
/// or, for timings, the feet's bars with what is timed bracketed.
class MeasurePicture final : public QWidget {
    Q_OBJECT
public:
    explicit MeasurePicture(QWidget* parent = nullptr);
    void setMeasure(const Measure* measure);
    [[nodiscard]] QSize sizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    const Measure* m_measure{};
};

/// What the picture shows, for those who do not see it and as its caption.
[[nodiscard]] QString captionOf(const Measure& measure);

/// Parts of the picture; each paints inside `rect`, logical pixels.
void paintSideFigure(QPainter& painter, const QRectF& rect, const Measure& measure);
void paintRearFigure(QPainter& painter, const QRectF& rect, const Measure& measure);
void paintFeetInTime(QPainter& painter, const QRectF& rect, const Measure& measure);

} // namespace latemile::ui
