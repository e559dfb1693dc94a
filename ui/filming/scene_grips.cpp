// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/scene_grips.hpp"

#include "core/scene/scale_lines.hpp"

#include <QCoreApplication>

#include <algorithm>
#include <utility>

namespace latemile::ui {
namespace {

constexpr double groundGripU = 24.0; ///< px from the picture's left edge

/// Whichever way it was drawn or dragged, up is up.
PlumbLine upright(PixelPoint a, PixelPoint b)
{
    return a.v <= b.v ? PlumbLine{a, b} : PlumbLine{b, a};
}

PlaneCorners cornersBetween(PixelPoint from, PixelPoint to, const SideLengths& cm)
{
    const double left = std::min(from.u, to.u);
    const double right = std::max(from.u, to.u);
    const double top = std::min(from.v, to.v);
    const double bottom = std::max(from.v, to.v);
    return {.image = {PixelPoint{left, bottom}, {right, bottom}, {right, top}, {left, top}},
            .cm = {{{0, 0}, {cm.width, 0}, {cm.width, cm.height}, {0, cm.height}}}};
}

} // namespace

std::vector<SceneGrip> gripsOf(const Scene& scene)
{
    std::vector<SceneGrip> grips;
    for (std::size_t i = 0; i < scaleLinesOf(scene).size(); ++i) {
        grips.push_back({SceneLine::Scale, i, false});
        grips.push_back({SceneLine::Scale, i, true});
    }
    if (scene.plumb) {
        grips.push_back({SceneLine::Plumb, 0, false});
        grips.push_back({SceneLine::Plumb, 0, true});
    }
    if (scene.groundV) {
        grips.push_back({SceneLine::Ground, 0, false});
    }
    for (std::size_t i = 0; scene.plane && i < 4; ++i) {
        grips.push_back({SceneLine::Corners, i, false});
    }
    return grips;
}

PixelPoint placeOf(const Scene& scene, const SceneGrip& grip)
{
    switch (grip.line) {
    case SceneLine::Scale: {
        const auto line = scaleLinesOf(scene)[grip.index];
        return grip.second ? line.b : line.a;
    }
    case SceneLine::Plumb:
        return grip.second ? scene.plumb->bottom : scene.plumb->top;
    case SceneLine::Ground:
        return {groundGripU, *scene.groundV};
    case SceneLine::Corners:
        break;
    }
    return scene.plane->image[grip.index];
}

Scene withGripAt(Scene scene, const SceneGrip& grip, PixelPoint at)
{
    switch (grip.line) {
    case SceneLine::Scale: {
        auto lines = scaleLinesOf(scene);
        (grip.second ? lines[grip.index].b : lines[grip.index].a) = at;
        return withScaleLines(std::move(scene), std::move(lines));
    }
    case SceneLine::Plumb: {
        PlumbLine moved = *scene.plumb;
        (grip.second ? moved.bottom : moved.top) = at;
        // A line on its head would be refused when the session is read again.
        if (moved.top.v < moved.bottom.v) {
            scene.plumb = moved;
        }
        break;
    }
    case SceneLine::Ground:
        scene.groundV = at.v;
        break;
    case SceneLine::Corners:
        scene.plane->image[grip.index] = at;
        break;
    }
    return scene;
}

Scene withNewLine(Scene scene, SceneLine line, PixelPoint from, PixelPoint to,
                  const SideLengths& cm)
{
    switch (line) {
    case SceneLine::Scale: {
        auto lines = scaleLinesOf(scene);
        lines.push_back({.a = from, .b = to, .lengthCm = cm.width});
        return withScaleLines(std::move(scene), std::move(lines));
    }
    case SceneLine::Plumb:
        if (from.v != to.v) {
            scene.plumb = upright(from, to);
        }
        break;
    case SceneLine::Ground:
        scene.groundV = to.v;
        break;
    case SceneLine::Corners:
        scene.plane = cornersBetween(from, to, cm);
        break;
    }
    return scene;
}

QString nameOf(SceneLine line)
{
    const auto translated = [](const char* text) {
        return QCoreApplication::translate("SceneTool", text);
    };
    switch (line) {
    case SceneLine::Scale:
        return translated(QT_TRANSLATE_NOOP("SceneTool", "scale line"));
    case SceneLine::Plumb:
        return translated(QT_TRANSLATE_NOOP("SceneTool", "plumb line"));
    case SceneLine::Ground:
        return translated(QT_TRANSLATE_NOOP("SceneTool", "ground line"));
    case SceneLine::Corners:
        break;
    }
    return translated(QT_TRANSLATE_NOOP("SceneTool", "corners"));
}

} // namespace latemile::ui
