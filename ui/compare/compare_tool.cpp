// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/compare/compare_tool.hpp"

#include "core/scene/plane.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/picture/figure_painter.hpp"

#include <QPainter>

namespace latemile::ui {
namespace {

const Mark* hipOf(const CompareTool::Shown& shown)
{
    return shown.clip->marking().find({shown.frame, BodySide::Near, Landmark::Hip});
}

} // namespace

void CompareTool::paint(QPainter& painter, const PictureMap& map) const
{
    if (m_own.clip == nullptr) {
        return;
    }
    if (m_ghost && m_ghost->clip != nullptr) {
        painter.save();
        painter.setOpacity(0.75);
        paintGhost(painter, map);
        painter.restore();
    }
    paintFigure(painter, map, m_own.clip->marking(), m_own.frame,
                inkOf(m_own.clip->clip().condition));
}

void CompareTool::paintGhost(QPainter& painter, const PictureMap& map) const
{
    const auto own = Plane::from(m_own.clip->scene());
    const auto other = Plane::from(m_ghost->clip->scene());
    const Mark* ownHip = hipOf(m_own);
    const Mark* otherHip = hipOf(*m_ghost);
    if (!own || !other || ownHip == nullptr || otherHip == nullptr) {
        return;
    }
    const PlanePoint here = own->toPlane(ownHip->at);
    const PlanePoint there = other->toPlane(otherHip->at);
    const auto moved = [&](PixelPoint point) {
        const PlanePoint cm = other->toPlane(point);
        return own->toPixel({here.x + cm.x - there.x, here.y + cm.y - there.y});
    };
    paintFigure(painter, map, m_ghost->clip->marking(), m_ghost->frame,
                inkOf(m_ghost->clip->clip().condition), moved);
}

} // namespace latemile::ui
