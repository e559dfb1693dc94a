// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/picture/frame_view.hpp"

#include "ui/picture/close_up.hpp"
#include "ui/picture/picture_image.hpp"
#include "ui/picture/picture_tool.hpp"
#include "ui/theme/tokens.hpp"

#include <QMouseEvent>
#include <QPainter>
#include <QPushButton>
#include <QWheelEvent>
#include <QtMath>

#include <algorithm>
#include <cmath>

namespace latemile::ui {
namespace {

constexpr double largestZoom = 48.0;
constexpr double singlePixelsFrom = 3.0; ///< from here on each picture pixel is a square

} // namespace

FrameView::FrameView(QWidget* parent) : QWidget(parent), m_offer(new QPushButton(this))
{
    m_offer->hide();
    m_offer->setCursor(Qt::ArrowCursor);
    connect(m_offer, &QPushButton::clicked, this, &FrameView::offerTaken);
    setMouseTracking(true);
    setAttribute(Qt::WA_OpaquePaintEvent);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
    setAccessibleName(tr("Picture"));
}

void FrameView::setFrame(const Frame& frame)
{
    const QSize before = m_image.size();
    m_image = imageOf(frame.picture);
    m_number = frame.number;
    m_message.clear();
    m_offer->hide();
    if (m_image.size() != before && m_part) {
        fitPart(*m_part);
    } else if (m_image.size() != before) {
        fit();
    }
    update();
}

void FrameView::setMessage(const QString& message)
{
    m_message = message;
    m_image = QImage();
    m_offer->hide();
    update();
}

void FrameView::offer(const QString& words)
{
    m_offer->setText(words);
    m_offer->show();
    placeOffer();
}

QRect FrameView::messageRect() const
{
    const int margin = 4 * gridStep;
    const QRect room = rect().adjusted(margin, margin, -margin, -margin);
    return fontMetrics().boundingRect(room, Qt::AlignCenter | Qt::TextWordWrap, m_message);
}

/// Below the message, in the middle.
void FrameView::placeOffer()
{
    m_offer->adjustSize();
    m_offer->move((width() - m_offer->width()) / 2, messageRect().bottom() + 2 * gridStep);
}

void FrameView::setLate(bool late)
{
    m_late = late;
    update();
}

void FrameView::setTool(PictureTool* tool)
{
    m_tool = tool;
    update();
}

QSizeF FrameView::deviceSize() const
{
    return QSizeF(size()) * devicePixelRatioF();
}

QPointF FrameView::toDevice(QPointF logical) const
{
    return logical * devicePixelRatioF();
}

void FrameView::setMap(const PictureMap& map)
{
    m_map = map;
    update();
    emit mapChanged();
}

void FrameView::fit()
{
    m_fitted = true;
    m_part.reset();
    setMap(fitted(m_image.size(), deviceSize(), devicePixelRatioF()));
}

QRectF FrameView::partInSight() const
{
    return {(QPointF() - m_map.origin) / m_map.zoom, deviceSize() / m_map.zoom};
}

void FrameView::fitPart(QRectF part)
{
    m_fitted = false;
    m_part = part;
    setMap(fitted(part, deviceSize(), devicePixelRatioF()));
}

void FrameView::zoomBy(double factor)
{
    zoomBy(factor, rect().center());
}

void FrameView::zoomBy(double factor, QPointF at)
{
    if (m_image.isNull()) {
        return;
    }
    const double whole = fitted(m_image.size(), deviceSize(), devicePixelRatioF()).zoom;
    PictureMap map = m_map;
    map.zoom = std::clamp(m_map.zoom * factor, std::min(whole, 1.0), largestZoom);
    if (map.zoom <= whole * 1.001 && factor < 1) {
        fit();
        return;
    }
    const QPointF device = toDevice(at);
    map.origin = device - (device - m_map.origin) * (map.zoom / m_map.zoom);
    m_fitted = false;
    m_part.reset();
    m_map = map;
    keepInSight();
    setMap(m_map);
    emit movedByHand();
}

/// A picture dragged out of the window would be lost to a coach who does not know the key.
void FrameView::keepInSight()
{
    const QRectF picture = m_map.rectOf(m_image.size());
    const QSizeF device = deviceSize();
    const double keep = 64 * devicePixelRatioF();
    m_map.origin.setX(std::clamp(m_map.origin.x(), keep - picture.width(), device.width() - keep));
    m_map.origin.setY(
        std::clamp(m_map.origin.y(), keep - picture.height(), device.height() - keep));
}

void FrameView::resizeEvent(QResizeEvent*)
{
    placeOffer();
    if (m_fitted) {
        fit();
    } else if (m_part) {
        fitPart(*m_part);
    } else {
        m_map.devicePixels = devicePixelRatioF();
        keepInSight();
        setMap(m_map);
    }
}

/// Scaling a large picture takes longer than all that is drawn over it: once a frame and place, not
/// at every move of the pointer.
const QImage& FrameView::layer()
{
    const QSizeF device = deviceSize();
    const QSize size(qCeil(device.width()), qCeil(device.height()));
    if (m_layer.size() == size && m_layerOf == m_image.cacheKey() && m_layerMap == m_map) {
        return m_layer;
    }
    if (m_layer.size() != size) {
        m_layer = QImage(size, QImage::Format_RGB32);
    }
    m_layerOf = m_image.cacheKey();
    m_layerMap = m_map;
    m_layer.fill(tokensOf(palette()).well);
    QPainter painter(&m_layer);
    painter.setRenderHint(QPainter::SmoothPixmapTransform, m_map.zoom < singlePixelsFrom);
    painter.drawImage(m_map.rectOf(m_image.size()), m_image);
    return m_layer;
}

void FrameView::changeEvent(QEvent* event)
{
    if (event->type() == QEvent::PaletteChange) {
        m_layerOf = 0;
    }
    QWidget::changeEvent(event);
}

void FrameView::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    if (m_image.isNull()) {
        painter.fillRect(rect(), tokensOf(palette()).well);
        paintMessage(painter);
        return;
    }
    if (m_map.devicePixels != devicePixelRatioF() && m_fitted) {
        m_map = fitted(m_image.size(), deviceSize(), devicePixelRatioF());
    }
    const double scale = 1.0 / devicePixelRatioF();
    painter.scale(scale, scale);
    painter.drawImage(QPointF(0, 0), layer());
    painter.setRenderHint(QPainter::Antialiasing);
    if (m_tool != nullptr) {
        painter.save();
        m_tool->paint(painter, m_map);
        painter.restore();
        if (const auto at = m_tool->closeUpAt()) {
            paintCloseUp(painter, m_image, *m_tool, *at, m_map, deviceSize());
            paintNameAt(painter, m_tool->nameAtPointer(), *at, m_map);
        }
    }
    if (m_late) {
        paintLate(painter);
    }
    emit framePainted(m_number.value);
}

void FrameView::paintMessage(QPainter& painter) const
{
    painter.setPen(QColor(0xec, 0xed, 0xee));
    painter.drawText(messageRect(), Qt::AlignCenter | Qt::TextWordWrap, m_message);
}

void FrameView::paintLate(QPainter& painter) const
{
    const double unit = devicePixelRatioF();
    QFont font = this->font();
    font.setPixelSize(qRound(smallText * unit));
    painter.setFont(font);
    const QString text = tr("late");
    const double width = QFontMetricsF(font).horizontalAdvance(text) + 16 * unit;
    const QRectF box(deviceSize().width() - width - 8 * unit, 8 * unit, width, 22 * unit);
    painter.setPen(Qt::NoPen);
    painter.setBrush(QColor(0x1d, 0x20, 0x23, 225));
    painter.drawRoundedRect(box, 4 * unit, 4 * unit);
    painter.setPen(Qt::white);
    painter.drawText(box, Qt::AlignCenter, text);
}

void FrameView::wheelEvent(QWheelEvent* event)
{
    const bool pad = !event->pixelDelta().isNull() && !(event->modifiers() & Qt::ControlModifier);
    if (pad && !m_image.isNull()) {
        m_map.origin += toDevice(QPointF(event->pixelDelta()));
        m_fitted = false;
        m_part.reset();
        keepInSight();
        setMap(m_map);
        emit movedByHand();
    } else {
        zoomBy(std::pow(1.2, event->angleDelta().y() / 120.0), event->position());
    }
    event->accept();
}

void FrameView::mousePressEvent(QMouseEvent* event)
{
    if (m_image.isNull()) {
        return;
    }
    const QPointF device = toDevice(event->position());
    if (event->button() == Qt::LeftButton && m_tool != nullptr &&
        m_tool->press(m_map.toPicture(device), m_map, event->modifiers())) {
        m_dragsTool = true;
        update();
        return;
    }
    m_pansFrom = device;
    setCursor(Qt::ClosedHandCursor);
}

void FrameView::mouseMoveEvent(QMouseEvent* event)
{
    const QPointF device = toDevice(event->position());
    if (m_pansFrom) {
        m_map.origin += device - *m_pansFrom;
        m_pansFrom = device;
        m_fitted = false;
        m_part.reset();
        keepInSight();
        setMap(m_map);
        emit movedByHand();
    } else if (m_tool != nullptr && !m_image.isNull()) {
        if (m_dragsTool) {
            m_tool->drag(m_map.toPicture(device));
        } else {
            m_tool->hover(m_map.toPicture(device), m_map);
        }
        update();
    }
}

void FrameView::mouseReleaseEvent(QMouseEvent*)
{
    if (m_dragsTool && m_tool != nullptr) {
        m_tool->release();
        update();
    }
    m_dragsTool = false;
    m_pansFrom.reset();
    unsetCursor();
}

void FrameView::leaveEvent(QEvent*)
{
    if (m_tool != nullptr) {
        m_tool->leave();
        update();
    }
}

} // namespace latemile::ui
