// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/compare/compare_tool.hpp"

#include "core/scene/plane.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/picture/figure_painter.hpp"

#include <QCoreApplication>
#include <QPainter>

#include <array>
#include <utility>

namespace latemile::ui {
namespace {

QString told(const char* text)
{
    return QCoreApplication::translate("CompareTool", text);
}

/// The two marks that are laid on each other: the first landmark both frames have.
using Pair = std::pair<const Mark*, const Mark*>;
std::optional<Pair> anchorOf(const CompareTool::Shown& own, const CompareTool::Shown& ghost,
                             GhostAt at)
{
    constexpr std::array hip{Landmark::Hip};
    constexpr std::array foot{Landmark::Toe, Landmark::Heel, Landmark::Ankle};
    const auto both = [&](const auto& landmarks) -> std::optional<Pair> {
        for (const Landmark landmark : landmarks) {
            const Mark* a = own.clip->marking().find({own.frame, BodySide::Near, landmark});
            const Mark* b = ghost.clip->marking().find({ghost.frame, BodySide::Near, landmark});
            if (a != nullptr && b != nullptr) {
                return Pair{a, b};
            }
        }
        return std::nullopt;
    };
    return at == GhostAt::Hip ? both(hip) : both(foot);
}

} // namespace

void CompareTool::setGhost(const std::optional<Shown>& ghost, GhostAt at)
{
    m_ghost = ghost;
    m_at = at;
}

QString CompareTool::ghostFault() const
{
    if (m_at == GhostAt::None || !m_own || !m_ghost) {
        return {};
    }
    if (!Plane::from(m_own->clip->scene()) || !Plane::from(m_ghost->clip->scene())) {
        return told(QT_TRANSLATE_NOOP("CompareTool", "no ghost: a scene is not set up"));
    }
    if (!anchorOf(*m_own, *m_ghost, m_at)) {
        return m_at == GhostAt::Hip
                   ? told(QT_TRANSLATE_NOOP("CompareTool", "no ghost: hip not marked on both"))
                   : told(QT_TRANSLATE_NOOP("CompareTool", "no ghost: foot not marked on both"));
    }
    return {};
}

void CompareTool::paint(QPainter& painter, const PictureMap& map) const
{
    if (!m_own) {
        return;
    }
    if (m_ghost && m_at != GhostAt::None) {
        painter.save();
        painter.setOpacity(0.75);
        paintGhost(painter, map);
        painter.restore();
    }
    paintFigure(painter, map, m_own->clip->marking(), m_own->frame, m_own->ink);
}

void CompareTool::paintGhost(QPainter& painter, const PictureMap& map) const
{
    const auto own = Plane::from(m_own->clip->scene());
    const auto other = Plane::from(m_ghost->clip->scene());
    const auto anchor = anchorOf(*m_own, *m_ghost, m_at);
    if (!own || !other || !anchor) {
        return;
    }
    const PlanePoint here = own->toPlane(anchor->first->at);
    const PlanePoint there = other->toPlane(anchor->second->at);
    const auto moved = [&](PixelPoint point) {
        const PlanePoint cm = other->toPlane(point);
        return own->toPixel({here.x + cm.x - there.x, here.y + cm.y - there.y});
    };
    paintFigure(painter, map, m_ghost->clip->marking(), m_ghost->frame, m_ghost->ink, moved);
}

} // namespace latemile::ui
