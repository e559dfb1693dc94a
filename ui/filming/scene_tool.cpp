// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/scene_tool.hpp"

#include "ui/document/clip_document.hpp"
#include "ui/document/commands/set_scene.hpp"
#include "ui/picture/ink.hpp"
#include "ui/text/numbers.hpp"

#include <QPainter>
#include <QUndoStack>

namespace latemile::ui {
namespace {

constexpr double reach = 12.0; ///< logical pixels

const FigureInk ink{.colour = QColor(0x1d, 0x20, 0x23), .dashed = false, .hollow = true};

void paintLine(QPainter& painter, const PictureMap& map, PixelPoint a, PixelPoint b,
               const QString& name)
{
    drawInkLine(painter, ink, map.toDevice(a), map.toDevice(b), map.devicePixels);
    drawInkDot(painter, ink, map.toDevice(a), map.devicePixels);
    drawInkDot(painter, ink, map.toDevice(b), map.devicePixels);
    if (name.isEmpty()) {
        return;
    }
    const QPointF middle = (map.toDevice(a) + map.toDevice(b)) / 2;
    drawPlate(painter, name, middle + QPointF(10, 0) * map.devicePixels, map.devicePixels);
}

} // namespace

void SceneTool::setClip(ClipDocument* clip)
{
    m_clip = clip;
    m_held.reset();
    draw(std::nullopt);
}

void SceneTool::draw(std::optional<Line> line)
{
    m_draws = line;
    ++m_gesture;
}

QString SceneTool::nameOf(Line line)
{
    switch (line) {
    case Line::Scale:
        return tr("scale line");
    case Line::Plumb:
        return tr("plumb line");
    case Line::Ground:
        return tr("ground line");
    }
    return {};
}

void SceneTool::paint(QPainter& painter, const PictureMap& map) const
{
    if (m_clip == nullptr) {
        return;
    }
    const Scene& scene = m_clip->scene();
    if (scene.groundV) {
        const double width = m_clip->isOpen() ? m_clip->feed().facts().width : 0;
        const PixelPoint left{0, *scene.groundV};
        drawInkLine(painter, ink, map.toDevice(left), map.toDevice({width, *scene.groundV}),
                    map.devicePixels);
        drawPlate(painter, nameOf(Line::Ground),
                  map.toDevice(left) + QPointF(10, 0) * map.devicePixels, map.devicePixels);
    }
    if (scene.plumb) {
        paintLine(painter, map, scene.plumb->top, scene.plumb->bottom, nameOf(Line::Plumb));
    }
    if (scene.scale) {
        const PixelPoint a = scene.scale->a;
        const PixelPoint b = scene.scale->b;
        paintLine(painter, map, a, b, QString());
        // A quarter down the line, clear of a plumb line's name on the same pole.
        const QPointF place = map.toDevice({a.u + (b.u - a.u) / 4, a.v + (b.v - a.v) / 4});
        drawPlate(painter, numberText(scene.scale->lengthCm, 1) + QStringLiteral(" cm"),
                  place + QPointF(10, 0) * map.devicePixels, map.devicePixels);
    }
}

std::optional<SceneTool::Held> SceneTool::heldAt(PixelPoint at, const PictureMap& map) const
{
    const Scene& scene = m_clip->scene();
    const auto near = [&](PixelPoint point) { return map.distance(point, at) <= reach; };
    if (scene.scale && near(scene.scale->b)) {
        return Held{Line::Scale, true};
    }
    if (scene.scale && near(scene.scale->a)) {
        return Held{Line::Scale, false};
    }
    if (scene.plumb && near(scene.plumb->bottom)) {
        return Held{Line::Plumb, true};
    }
    if (scene.plumb && near(scene.plumb->top)) {
        return Held{Line::Plumb, false};
    }
    if (scene.groundV && near({at.u, *scene.groundV})) {
        return Held{Line::Ground, false};
    }
    return std::nullopt;
}

bool SceneTool::press(PixelPoint at, const PictureMap& map, Qt::KeyboardModifiers)
{
    if (m_clip == nullptr) {
        return false;
    }
    ++m_gesture;
    m_from = at;
    if (m_draws) {
        m_held = Held{*m_draws, true};
        if (*m_draws == Line::Ground) {
            drag(at);
        }
        return true;
    }
    m_held = heldAt(at, map);
    return m_held.has_value();
}

void SceneTool::drag(PixelPoint at)
{
    m_pointer = at;
    if (!m_held || m_clip == nullptr) {
        return;
    }
    Scene scene = m_clip->scene();
    switch (m_held->line) {
    case Line::Scale:
        if (m_draws) {
            scene.scale = ScaleLine{.a = m_from, .b = at, .lengthCm = m_length};
        } else {
            (m_held->second ? scene.scale->b : scene.scale->a) = at;
        }
        break;
    case Line::Plumb:
        if (m_draws) {
            // Whichever way it was drawn, up is up.
            const bool down = m_from.v <= at.v;
            scene.plumb = PlumbLine{.top = down ? m_from : at, .bottom = down ? at : m_from};
        } else {
            (m_held->second ? scene.plumb->bottom : scene.plumb->top) = at;
        }
        break;
    case Line::Ground:
        scene.groundV = at.v;
        break;
    }
    change(scene, m_held->line);
}

void SceneTool::change(const Scene& scene, Line line)
{
    m_clip->history().push(new SetScene(*m_clip, scene, tr("set %1").arg(nameOf(line)), m_gesture));
}

void SceneTool::release()
{
    const bool wasDrawing = m_draws.has_value();
    m_held.reset();
    ++m_gesture;
    if (wasDrawing) {
        m_draws.reset();
        emit drawn();
    }
}

void SceneTool::hover(PixelPoint at, const PictureMap&)
{
    m_pointer = at;
}

std::optional<PixelPoint> SceneTool::closeUpAt() const
{
    return m_held || m_draws ? m_pointer : std::nullopt;
}

QString SceneTool::nameAtPointer() const
{
    return m_draws ? nameOf(*m_draws) : QString();
}

} // namespace latemile::ui
