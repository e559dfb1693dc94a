// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/picture/athlete_part.hpp"

#include "core/scene/plane.hpp"
#include "ui/document/clip_document.hpp"

#include <cstdlib>

namespace latemile::ui {
namespace {

// Around the hip, centimetres: room for a tall runner's head and a leg stretched behind.
constexpr double aside = 95;
constexpr double above = 95;
constexpr double below = 105;

} // namespace

std::optional<PixelPoint> hipNear(const Marking& marking, FrameNumber frame)
{
    std::optional<PixelPoint> nearest;
    std::int64_t best = 0;
    for (const auto& [key, mark] : marking.marks) {
        const std::int64_t away = std::abs(key.frame.value - frame.value);
        if (key.landmark == Landmark::Hip && (!nearest || away < best)) {
            nearest = mark.at;
            best = away;
        }
    }
    return nearest;
}

std::optional<QRectF> athletePart(const ClipDocument& clip, FrameNumber frame)
{
    const auto plane = Plane::from(clip.scene());
    const auto hip = hipNear(clip.marking(), frame);
    if (!plane || !plane->hasScale() || !hip) {
        return std::nullopt;
    }
    const PlanePoint centre = plane->toPlane(*hip);
    const PixelPoint a = plane->toPixel({centre.x - aside, centre.y + above});
    const PixelPoint b = plane->toPixel({centre.x + aside, centre.y - below});
    return QRectF(QPointF(a.u, a.v), QPointF(b.u, b.v)).normalized();
}

} // namespace latemile::ui
