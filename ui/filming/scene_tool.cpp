// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/scene_tool.hpp"

#include "core/scene/scale_lines.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/document/commands/set_scene.hpp"
#include "ui/picture/ink.hpp"
#include "ui/text/numbers.hpp"

#include <QPainter>
#include <QUndoStack>

#include <algorithm>

namespace latemile::ui {
namespace {

constexpr double reach = 12.0; ///< logical pixels

const FigureInk ink{.colour = QColor(0x1d, 0x20, 0x23), .dashed = false, .hollow = true};

void paintLine(QPainter& painter, const PictureMap& map, PixelPoint a, PixelPoint b)
{
    drawInkLine(painter, ink, map.toDevice(a), map.toDevice(b), map.devicePixels);
    drawInkDot(painter, ink, map.toDevice(a), map.devicePixels);
    drawInkDot(painter, ink, map.toDevice(b), map.devicePixels);
}

/// Beside a place a share down the line, so that names of lines on one pole stand apart.
void paintName(QPainter& painter, const PictureMap& map, PixelPoint a, PixelPoint b, double share,
               const QString& name)
{
    const QPointF place = map.toDevice({a.u + (b.u - a.u) * share, a.v + (b.v - a.v) * share});
    drawPlate(painter, name, place + QPointF(10, 0) * map.devicePixels, map.devicePixels);
}

} // namespace

void SceneTool::setClip(ClipDocument* clip)
{
    m_clip = clip;
    m_held.reset();
    m_chosen.reset();
    m_before.reset();
    draw(std::nullopt);
}

void SceneTool::draw(std::optional<SceneLine> line)
{
    m_draws = line;
    m_before.reset();
    ++m_gesture;
    emit chosenChanged();
}

void SceneTool::setLengths(SceneLine line, const SideLengths& cm)
{
    (line == SceneLine::Corners ? m_cornersCm : m_scaleCm) = cm;
}

void SceneTool::placeInMiddle()
{
    if (m_clip == nullptr || !m_draws || !m_clip->isOpen()) {
        return;
    }
    const ClipFacts& facts = m_clip->feed().facts();
    const double u = facts.width / 2.0;
    const PixelPoint top{*m_draws == SceneLine::Corners ? u * 0.7 : u, facts.height * 0.25};
    const PixelPoint bottom{*m_draws == SceneLine::Corners ? u * 1.3 : u, facts.height * 0.85};
    const SceneLine line = *m_draws;
    const auto& cm = line == SceneLine::Corners ? m_cornersCm : m_scaleCm;
    change(withNewLine(m_clip->scene(), line, top, bottom, cm), line);
    // The keys act on it at once.
    const auto grips = gripsOf(m_clip->scene());
    const auto last = std::find_if(grips.rbegin(), grips.rend(),
                                   [line](const SceneGrip& grip) { return grip.line == line; });
    m_chosen = last == grips.rend() ? std::nullopt : std::optional(*last);
    draw(std::nullopt);
    emit drawn();
}

bool SceneTool::isChosenThere() const
{
    const auto grips =
        m_clip != nullptr && m_chosen ? gripsOf(m_clip->scene()) : std::vector<SceneGrip>();
    return std::find(grips.begin(), grips.end(), m_chosen) != grips.end();
}

void SceneTool::chooseNext()
{
    if (m_clip == nullptr) {
        return;
    }
    const auto grips = gripsOf(m_clip->scene());
    const auto now = std::find(grips.begin(), grips.end(), m_chosen);
    if (grips.empty()) {
        m_chosen.reset();
    } else {
        m_chosen =
            now == grips.end() || std::next(now) == grips.end() ? grips.front() : *std::next(now);
    }
    ++m_gesture;
    emit chosenChanged();
}

void SceneTool::letGo()
{
    m_chosen.reset();
    draw(std::nullopt);
}

void SceneTool::nudge(double du, double dv)
{
    if (!isChosenThere()) {
        return;
    }
    const PixelPoint at = placeOf(m_clip->scene(), *m_chosen);
    change(withGripAt(m_clip->scene(), *m_chosen, {at.u + du, at.v + dv}), m_chosen->line);
    emit chosenChanged();
}

void SceneTool::setGhost(const QImage& picture, double opacity)
{
    m_ghost = picture;
    m_ghostOpacity = opacity;
    emit chosenChanged();
}

void SceneTool::paint(QPainter& painter, const PictureMap& map) const
{
    if (m_clip == nullptr) {
        return;
    }
    paintGhost(painter, map);
    paintLines(painter, map);
    paintCorners(painter, map);
    if (isChosenThere()) {
        drawChosenRing(painter, map.toDevice(placeOf(m_clip->scene(), *m_chosen)),
                       map.devicePixels);
    }
}

void SceneTool::paintGhost(QPainter& painter, const PictureMap& map) const
{
    // Ends are set on this picture, not on the one of last time.
    if (m_ghost.isNull() || m_held || m_draws || !m_clip->isOpen()) {
        return;
    }
    const ClipFacts& facts = m_clip->feed().facts();
    painter.setOpacity(m_ghostOpacity);
    painter.drawImage(map.rectOf(QSize(facts.width, facts.height)), m_ghost);
    painter.setOpacity(1.0);
}

void SceneTool::paintLines(QPainter& painter, const PictureMap& map) const
{
    const Scene& scene = m_clip->scene();
    if (scene.groundV) {
        const double width = m_clip->isOpen() ? m_clip->feed().facts().width : 0;
        const PixelPoint left{0, *scene.groundV};
        const PixelPoint grip = placeOf(scene, {SceneLine::Ground, 0, false});
        drawInkLine(painter, ink, map.toDevice(left), map.toDevice({width, *scene.groundV}),
                    map.devicePixels);
        drawInkDot(painter, ink, map.toDevice(grip), map.devicePixels);
        paintName(painter, map, grip, grip, 0, nameOf(SceneLine::Ground));
    }
    if (scene.plumb) {
        paintLine(painter, map, scene.plumb->top, scene.plumb->bottom);
        paintName(painter, map, scene.plumb->top, scene.plumb->bottom, 0.5,
                  nameOf(SceneLine::Plumb));
    }
    for (const ScaleLine& line : scaleLinesOf(scene)) {
        paintLine(painter, map, line.a, line.b);
        paintName(painter, map, line.a, line.b, 0.25,
                  numberText(line.lengthCm, 1) + QStringLiteral(" cm"));
    }
}

void SceneTool::paintCorners(QPainter& painter, const PictureMap& map) const
{
    const auto& plane = m_clip->scene().plane;
    if (!plane) {
        return;
    }
    for (std::size_t i = 0; i < 4; ++i) {
        paintLine(painter, map, plane->image[i], plane->image[(i + 1) % 4]);
    }
    paintName(painter, map, plane->image[0], plane->image[1], 0.5,
              tr("%1 × %2 cm")
                  .arg(numberText(plane->cm[1][0] - plane->cm[0][0], 0),
                       numberText(plane->cm[2][1] - plane->cm[1][1], 0)));
}

std::optional<SceneGrip> SceneTool::gripAt(PixelPoint at, const PictureMap& map) const
{
    const Scene& scene = m_clip->scene();
    std::optional<SceneGrip> nearest;
    double least = reach;
    for (const SceneGrip& grip : gripsOf(scene)) {
        PixelPoint place = placeOf(scene, grip);
        if (grip.line == SceneLine::Ground) {
            place.u = at.u; // anywhere on the line
        }
        const double away = map.distance(place, at);
        if (away <= least) {
            least = away;
            nearest = grip;
        }
    }
    return nearest;
}

bool SceneTool::press(PixelPoint at, const PictureMap& map, Qt::KeyboardModifiers)
{
    if (m_clip == nullptr) {
        return false;
    }
    ++m_gesture;
    m_from = at;
    m_pointer = at;
    m_chosen.reset();
    if (m_draws) {
        m_before = m_clip->scene();
        if (*m_draws == SceneLine::Ground) {
            drag(at);
        }
        return true;
    }
    m_held = gripAt(at, map);
    return m_held.has_value();
}

void SceneTool::drag(PixelPoint at)
{
    m_pointer = at;
    if (m_clip == nullptr) {
        return;
    }
    if (m_draws && m_before) {
        const auto& cm = *m_draws == SceneLine::Corners ? m_cornersCm : m_scaleCm;
        change(withNewLine(*m_before, *m_draws, m_from, at, cm), *m_draws);
    } else if (m_held) {
        change(withGripAt(m_clip->scene(), *m_held, at), m_held->line);
    }
}

void SceneTool::change(const Scene& scene, SceneLine line)
{
    if (scene != m_clip->scene()) {
        m_clip->history().push(
            new SetScene(*m_clip, scene, tr("set %1").arg(nameOf(line)), m_gesture));
    }
}

void SceneTool::release()
{
    // A press that drew nothing leaves the line still to draw.
    const bool isDrawn = m_draws && m_before && *m_before != m_clip->scene();
    m_held.reset();
    m_before.reset();
    ++m_gesture;
    if (isDrawn) {
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
    if (m_held || m_draws) {
        return m_pointer;
    }
    return isChosenThere() ? std::optional(placeOf(m_clip->scene(), *m_chosen)) : std::nullopt;
}

QString SceneTool::nameAtPointer() const
{
    return m_draws ? nameOf(*m_draws) : QString();
}

} // namespace latemile::ui
