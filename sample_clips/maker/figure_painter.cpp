// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/figure_painter.hpp"

#include "sample_clips/maker/outlines.hpp"

#include <algorithm>
#include <cmath>

namespace latemile::maker {

namespace {
constexpr double farBrightness = 0.70;

Vec2 asVec2(PixelPoint p)
{
    return {p.u, p.v};
}

// What each part is made of; `s` along it and `w` towards its front, cm for a runner of 167 cm.
Colour skin(const Outfit& outfit, double, double)
{
    return outfit.skin;
}
Colour hair(const Outfit& outfit, double, double)
{
    return outfit.hair;
}
Colour ear(const Outfit& outfit, double, double)
{
    return outfit.skin * 0.82;
}
Colour shirt(const Outfit& outfit, double s, double)
{
    const bool band = s > 27.0 && s < 30.5;
    return s < 3.0 ? outfit.shorts : band ? outfit.shirtTrim : outfit.shirt;
}
Colour sleeve(const Outfit& outfit, double s, double)
{
    return s > 12.6 ? outfit.shirtTrim : outfit.shirt;
}
Colour shorts(const Outfit& outfit, double s, double w)
{
    return std::abs(w - 0.5) < 1.3 || s > 19.8 ? outfit.shortsTrim : outfit.shorts;
}
Colour shank(const Outfit& outfit, double s, double)
{
    return s > 34.0 ? outfit.sock : outfit.skin;
}
Colour shoe(const Outfit& outfit, double s, double w)
{
    if (w < 2.3) {
        return w < 0.6 ? outfit.shoeTrim : outfit.sole;
    }
    const double stripe = s - 0.55 * w;
    const bool striped = (stripe > 7.0 && stripe < 8.4) || (stripe > 9.8 && stripe < 11.2);
    return striped ? outfit.sole : s < 3.0 || w > 8.6 ? outfit.shoeTrim : outfit.shoe;
}
Colour counter(const Outfit& outfit, double s, double w)
{
    return s < 2.3 ? outfit.sole : std::abs(w) < 0.7 ? outfit.shoeTrim : outfit.shoe;
}
Colour sole(const Outfit& outfit, double s, double w)
{
    return std::abs(w) < 1.0 || std::fmod(s + 50.0, 4.0) < 1.0 ? outfit.shoeTrim : outfit.sole;
}
Colour face(const Outfit& outfit, double s, double w)
{
    // Eye, brow and mouth, just enough to read as a face from across a room.
    const bool eye = w > 7.0 && w < 8.6 && std::abs(s - 0.6) < 0.55;
    const bool brow = w > 6.6 && w < 9.2 && std::abs(s - 2.4) < 0.35;
    const bool mouth = w > 7.4 && std::abs(s + 7.2) < 0.35;
    return eye || brow ? outfit.hair : mouth ? outfit.skin * 0.7 : outfit.skin;
}
} // namespace

FigurePainter::FigurePainter(const Camera& camera, const Body& body, std::uint64_t seed)
    : m_camera(camera), m_scale(body.stature / 167.0), m_shoe(body.shoe), m_ball(body.ball.x),
      m_view(camera.recipe().view), m_outfit(outfitOf(seed)), m_relief(seed + 2),
      m_parts(m_outfit, m_relief)
{
}

Placement FigurePainter::between(Vec3 first, Vec3 second, double lengthCm) const
{
    const Vec2 a = asVec2(m_camera.project(first));
    const Vec2 b = asVec2(m_camera.project(second));
    const Vec2 along = (b - a) * (m_scale / lengthCm);
    const double perCm = m_camera.pixelsPerCm((first + second) * 0.5) * m_scale;
    const double size = std::max(length(b - a), 1e-6);
    const Vec2 unit = (b - a) * (1.0 / size);
    // For a part that points down, its front is to the picture's left when the runner faces left.
    const double facing = m_view == View::LeftSide ? -1.0 : 1.0;
    return {a, along, Vec2{unit.y, -unit.x} * (facing * perCm)};
}

void FigurePainter::paintArm(const Canvas& canvas, const SidePose& side, double brightness) const
{
    const auto& outline = m_view == View::Rear ? rearOutlines() : sideOutlines();
    const auto& [pose, knee, ankle, heel, ball, toe, pitch, bend, grounded] = side;
    const auto upper = between(pose.shoulder, pose.elbow, length(pose.elbow - pose.shoulder));
    const auto fore = between(pose.elbow, pose.wrist, length(pose.wrist - pose.elbow));
    Placement hand = fore;
    hand.origin = asVec2(m_camera.project(pose.wrist));
    m_parts.paint(canvas.picture, canvas.corner, outline.hand, hand, skin, brightness);
    m_parts.paint(canvas.picture, canvas.corner, outline.forearm, fore, skin, brightness);
    m_parts.paint(canvas.picture, canvas.corner, outline.upperArm, upper, skin, brightness);
    m_parts.paint(canvas.picture, canvas.corner, outline.sleeve, upper, sleeve, brightness,
                  canvas.clothSlip);
}

void FigurePainter::paintLeg(const Canvas& canvas, const SidePose& side, double brightness) const
{
    const auto& outline = m_view == View::Rear ? rearOutlines() : sideOutlines();
    const auto thigh = between(side.upper.hip, side.knee, length(side.knee - side.upper.hip));
    const auto lower = between(side.knee, side.ankle, length(side.ankle - side.knee));
    m_parts.paint(canvas.picture, canvas.corner, outline.shank, lower, shank, brightness);
    m_parts.paint(canvas.picture, canvas.corner, outline.thigh, thigh, skin, brightness);
    m_parts.paint(canvas.picture, canvas.corner, outline.shorts, thigh, shorts, brightness,
                  canvas.clothSlip);
    if (m_view == View::Rear) {
        paintShoeFromBehind(canvas, side, brightness);
    } else {
        paintShoe(canvas, side, brightness);
    }
}

void FigurePainter::paintShoe(const Canvas& canvas, const SidePose& side, double brightness) const
{
    const auto& outline = sideOutlines();
    // The plane of the shoe: along the sole, and up from it.
    const auto plane = [&](Vec3 origin, double angle) {
        const Vec2 at = asVec2(m_camera.project(origin));
        const Vec3 forward = origin + Vec3{std::cos(angle), std::sin(angle), 0.0};
        const Vec3 up = origin + Vec3{-std::sin(angle), std::cos(angle), 0.0};
        return Placement{at, (asVec2(m_camera.project(forward)) - at) * m_scale,
                         (asVec2(m_camera.project(up)) - at) * m_scale};
    };
    const double frontAngle = side.shoePitch + side.shoeBend;
    const Vec3 frontHeel =
        side.ball - Vec3{std::cos(frontAngle), std::sin(frontAngle), 0.0} * m_ball;
    m_parts.paint(canvas.picture, canvas.corner, outline.shoeFront, plane(frontHeel, frontAngle),
                  shoe, brightness);
    m_parts.paint(canvas.picture, canvas.corner, outline.shoeRear, plane(side.heel, side.shoePitch),
                  shoe, brightness);
}

void FigurePainter::paintShoeFromBehind(const Canvas& canvas, const SidePose& side,
                                        double brightness) const
{
    const auto& outline = rearOutlines();
    const auto bottom = between(side.heel, side.toe, m_shoe);
    if (length(bottom.along) > 0.1 * length(bottom.across)) {
        m_parts.paint(canvas.picture, canvas.corner, outline.shoeFront, bottom, sole, brightness);
    }
    const Vec3 up{-std::sin(side.shoePitch), std::cos(side.shoePitch), 0.0};
    m_parts.paint(canvas.picture, canvas.corner, outline.shoeRear,
                  between(side.heel, side.heel + up * 9.0, 9.0), counter, brightness);
}

void FigurePainter::paintTrunk(const Canvas& canvas, const Pose& pose) const
{
    const auto& outline = m_view == View::Rear ? rearOutlines() : sideOutlines();
    const double size = length(pose.midShoulder - pose.pelvis);
    auto trunk = between(pose.pelvis, pose.midShoulder, size);
    // The trunk points up, so its front lies on the other hand than a leg's.
    trunk.across = trunk.across * -1.0;
    m_parts.paint(canvas.picture, canvas.corner, outline.trunk, trunk, shirt, 0.96,
                  canvas.clothSlip);
}

void FigurePainter::paintHead(const Canvas& canvas, const Pose& pose) const
{
    const auto& outline = m_view == View::Rear ? rearOutlines() : sideOutlines();
    const bool rear = m_view == View::Rear;
    const Vec3 middle = (pose.left.upper.ear + pose.right.upper.ear) * 0.5;
    const Vec3 near = m_view == View::LeftSide ? pose.left.upper.ear : pose.right.upper.ear;
    auto neck = between(pose.midShoulder, middle, length(middle - pose.midShoulder));
    neck.across = neck.across * -1.0;
    m_parts.paint(canvas.picture, canvas.corner, outline.neck, neck, skin, 0.86);
    // The head stays nearly upright: runners keep their eyes level.
    const Vec3 seat = rear ? middle : near;
    auto head = between(seat, seat + Vec3{0.9, 10.0, 0.0}, length(Vec3{0.9, 10.0, 0.0}));
    head.across = head.across * -1.0;
    m_parts.paint(canvas.picture, canvas.corner, outline.head, head, rear ? skin : face, 1.0);
    m_parts.paint(canvas.picture, canvas.corner, outline.hair, head, hair, 1.0);
    for (const Vec3 side : {pose.left.upper.ear, pose.right.upper.ear}) {
        if (rear || side == near) {
            head.origin = asVec2(m_camera.project(side));
            m_parts.paint(canvas.picture, canvas.corner, outline.ear, head, ear, 1.0);
        }
    }
}

void FigurePainter::paintSide(const Canvas& canvas, const Pose& pose) const
{
    const bool leftNear = m_view == View::LeftSide;
    const SidePose& near = leftNear ? pose.left : pose.right;
    const SidePose& far = leftNear ? pose.right : pose.left;
    paintArm(canvas, far, farBrightness);
    paintLeg(canvas, far, farBrightness);
    paintHead(canvas, pose);
    paintTrunk(canvas, pose);
    paintLeg(canvas, near, 1.0);
    paintArm(canvas, near, 1.0);
}

void FigurePainter::paintRear(const Canvas& canvas, const Pose& pose) const
{
    for (const auto* side : {&pose.left, &pose.right}) {
        if (side->upper.wrist.x > pose.midShoulder.x) {
            paintArm(canvas, *side, 0.9);
        }
    }
    const bool leftAhead = pose.left.ankle.x > pose.right.ankle.x;
    paintLeg(canvas, leftAhead ? pose.left : pose.right, 0.9);
    paintLeg(canvas, leftAhead ? pose.right : pose.left, 1.0);
    paintTrunk(canvas, pose);
    paintHead(canvas, pose);
    for (const auto* side : {&pose.left, &pose.right}) {
        if (side->upper.wrist.x <= pose.midShoulder.x) {
            paintArm(canvas, *side, 1.0);
        }
    }
}

void FigurePainter::paint(cv::Mat& picture, cv::Point corner, const Pose& pose,
                          Vec2 clothSlip) const
{
    const Canvas canvas{
        picture, {static_cast<double>(corner.x), static_cast<double>(corner.y)}, clothSlip};
    if (m_view == View::Rear) {
        paintRear(canvas, pose);
    } else {
        paintSide(canvas, pose);
    }
}

cv::Rect FigurePainter::box(const Pose& pose) const
{
    Vec2 low{1e9, 1e9};
    Vec2 high{-1e9, -1e9};
    for (const auto& side : {pose.left, pose.right}) {
        for (const Vec3 place :
             {side.upper.ear, side.upper.shoulder, side.upper.elbow, side.upper.wrist,
              side.upper.hip, side.knee, side.ankle, side.heel, side.toe}) {
            const Vec2 p = asVec2(m_camera.project(place));
            const double margin = 17.0 * m_scale * m_camera.pixelsPerCm(place);
            low = {std::min(low.x, p.x - margin), std::min(low.y, p.y - margin)};
            high = {std::max(high.x, p.x + margin), std::max(high.y, p.y + margin)};
        }
    }
    const auto& size = m_camera.recipe();
    const cv::Rect around(cv::Point(static_cast<int>(low.x), static_cast<int>(low.y)),
                          cv::Point(static_cast<int>(high.x), static_cast<int>(high.y)));
    return around & cv::Rect(0, 0, size.width, size.height);
}

} // namespace latemile::maker
