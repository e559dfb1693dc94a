// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/help/measure_picture.hpp"

#include "ui/help/example_figure.hpp"
#include "ui/sheet/still_labels.hpp"
#include "ui/sheet/still_painter.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QPainter>
#include <QStringList>

#include <algorithm>

namespace latemile::ui {
namespace {

constexpr double sheetScale = 12.0; ///< twips a pixel: the sheet's small type then is 13 pixels

bool isTiming(const Measure& measure)
{
    return measure.landmarks.empty();
}

QStringList landmarkWords(const Measure& measure)
{
    QStringList words;
    for (const Landmark landmark : measure.landmarks) {
        words.append(wordFor(landmark));
    }
    return words;
}

} // namespace

MeasurePicture::MeasurePicture(QWidget* parent) : QWidget(parent)
{
    setAccessibleName(tr("Picture of the measure"));
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
}

void MeasurePicture::setMeasure(const Measure* measure)
{
    m_measure = measure;
    setAccessibleDescription(measure == nullptr ? QString() : captionOf(*measure));
    updateGeometry();
    update();
}

QSize MeasurePicture::sizeHint() const
{
    return m_measure != nullptr && isTiming(*m_measure) ? QSize(48 * gridStep, 20 * gridStep)
                                                        : QSize(33 * gridStep, 44 * gridStep);
}

void MeasurePicture::paintEvent(QPaintEvent*)
{
    if (m_measure == nullptr) {
        return;
    }
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const QRectF whole = rect();
    if (isTiming(*m_measure)) {
        paintFeetInTime(painter, whole, *m_measure);
    } else if (m_measure->feet == Feet::Behind) {
        paintRearFigure(painter, whole, *m_measure);
    } else {
        paintSideFigure(painter, whole, *m_measure);
    }
}

void paintSideFigure(QPainter& painter, const QRectF& rect, const Measure& measure)
{
    const Still still = exampleStill(measure);
    const QRectF page(rect.topLeft() * sheetScale, rect.size() * sheetScale);
    painter.save();
    painter.scale(1.0 / sheetScale, 1.0 / sheetScale);
    const SheetStyle style;
    paintStill(painter, page, still, QImage(), style, SheetType(style, 1.0));
    const StillMap map(still, page);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(Qt::black, 1.5 * sheetScale));
    for (const StillMark& mark : still.landmarks) {
        if (std::ranges::find(measure.landmarks, mark.landmark) != measure.landmarks.end()) {
            painter.drawEllipse(map(mark.at), 9.0 * sheetScale, 9.0 * sheetScale);
        }
    }
    painter.restore();
}

QString captionOf(const Measure& measure)
{
    if (isTiming(measure)) {
        return MeasurePicture::tr("The feet in time: a bar from contact to toe-off; the bracket is "
                                  "what is timed.");
    }
    const QString words = landmarkWords(measure).join(QStringLiteral(", "));
    return measure.feet == Feet::Behind
               ? MeasurePicture::tr("Seen from behind. Ringed: %1.").arg(words)
               : MeasurePicture::tr("The worked example at %1. Ringed: %2.")
                     .arg(wordFor(exampleInstant(measure)), words);
}

} // namespace latemile::ui
