// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/box_tool.hpp"

#include "ui/picture/ink.hpp"

#include <QPainter>

#include <algorithm>
#include <cmath>

namespace latemile::ui {
namespace {

constexpr double smallest = 0.05; ///< a side, in heights of the picture: less is a slip
constexpr double keyStep = 0.01;  ///< the same
constexpr double firstHeight = 0.8;
constexpr double firstWidth = 0.4;

} // namespace

void BoxTool::begin(QSize picture)
{
    m_picture = picture;
    m_from.reset();
    const double high = firstHeight * picture.height();
    const double wide = firstWidth * picture.height();
    m_box = picture == m_takenOn
                ? m_taken
                : Box{(picture.width() - wide) / 2, (picture.height() - high) / 2, wide, high};
    emit changed();
}

void BoxTool::move(int across, int down)
{
    const double step = keyStep * m_picture.height();
    m_box.u += across * step;
    m_box.v += down * step;
    keepInPicture();
}

void BoxTool::widen(int across, int down)
{
    const double step = keyStep * m_picture.height();
    const double least = smallest * m_picture.height();
    m_box.width = std::max(least, m_box.width + across * step);
    m_box.height = std::max(least, m_box.height + down * step);
    keepInPicture();
}

void BoxTool::keepInPicture()
{
    m_box.width = std::min<double>(m_box.width, m_picture.width());
    m_box.height = std::min<double>(m_box.height, m_picture.height());
    m_box.u = std::clamp(m_box.u, 0.0, m_picture.width() - m_box.width);
    m_box.v = std::clamp(m_box.v, 0.0, m_picture.height() - m_box.height);
    emit changed();
}

void BoxTool::take()
{
    m_takenOn = m_picture;
    m_taken = m_box;
    emit taken(m_box);
}

void BoxTool::paint(QPainter& painter, const PictureMap& map) const
{
    const QPointF corner = map.toDevice({m_box.u, m_box.v});
    const QRectF box(corner, map.toDevice({m_box.u + m_box.width, m_box.v + m_box.height}));
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(QColor(0, 0, 0, 170), 4 * map.devicePixels));
    painter.drawRect(box);
    QPen dashes(Qt::white, 2 * map.devicePixels);
    dashes.setDashPattern({4, 3});
    painter.setPen(dashes);
    painter.drawRect(box);
    drawPlate(painter, tr("the runner"), corner + QPointF(8, 18) * map.devicePixels,
              map.devicePixels);
}

bool BoxTool::press(PixelPoint at, const PictureMap&, Qt::KeyboardModifiers)
{
    m_from = at;
    return true;
}

void BoxTool::drag(PixelPoint at)
{
    if (m_from) {
        m_box = {std::min(m_from->u, at.u), std::min(m_from->v, at.v), std::abs(at.u - m_from->u),
                 std::abs(at.v - m_from->v)};
        emit changed();
    }
}

void BoxTool::release()
{
    const bool isDrawn = m_from && m_box.width >= smallest * m_picture.height() &&
                         m_box.height >= smallest * m_picture.height();
    m_from.reset();
    if (isDrawn) {
        take();
    } else {
        begin(m_picture);
    }
}

} // namespace latemile::ui
