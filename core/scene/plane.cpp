// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/scene/plane.hpp"

#include "core/scene/scale_lines.hpp"

#include <opencv2/calib3d.hpp>
#include <opencv2/core.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

namespace latemile {

namespace {

/// A line shorter than this on the picture fixes no direction and no length.
constexpr double shortestLine = 2.0;
/// Error of the picture's own vertical, radians: one degree, a tripod levelled by eye (a choice of
/// this project).
constexpr double levelledByEye = 0.0175;

double distance(PixelPoint a, PixelPoint b)
{
    return std::hypot(b.u - a.u, b.v - a.v);
}

/// Unit vector towards the top of the picture's plumb line; the picture's own vertical where none
/// is drawn.
PixelPoint upOf(const Scene& scene)
{
    if (!scene.plumb) {
        return {0.0, -1.0};
    }
    const auto& [top, bottom] = *scene.plumb;
    const double length = distance(top, bottom);
    return {(top.u - bottom.u) / length, (top.v - bottom.v) / length};
}

bool isUpright(const ScaleLine& line)
{
    return std::abs(line.b.v - line.a.v) > 2.0 * std::abs(line.b.u - line.a.u);
}

Outcome<void> checkScale(const ScaleLine& line, const Scene& scene)
{
    if (distance(line.a, line.b) < shortestLine) {
        return fail(Error::Kind::Inconsistent,
                    "The scale line (field 'scale') has no length on the picture: draw it from one "
                    "end of the pole or tape to the other.");
    }
    if (!(line.lengthCm > 0.0)) {
        return fail(Error::Kind::Inconsistent,
                    "The scale line (field 'scale.length_cm') must be longer than 0 cm.");
    }
    if (isUpright(line) && !scene.plumb && !scene.plane) {
        return fail(Error::Kind::Inconsistent,
                    "The scale line (field 'scale') is upright and there is no plumb line (field "
                    "'plumb'): draw a plumb line too, for example along the same pole.");
    }
    return {};
}

/// The athlete's left side is filmed exactly when the athlete runs to the picture's left.
Outcome<void> checkSides(const Scene& scene)
{
    const bool left = scene.view == View::LeftSide;
    const bool right = scene.view == View::RightSide;
    if ((left && scene.travel != Travel::Left) || (right && scene.travel != Travel::Right)) {
        return fail(
            Error::Kind::Inconsistent,
            std::string("The scene says the camera sees the athlete's ") +
                (left ? "left" : "right") + " side (field 'view') but the run goes to the " +
                std::string(nameOf(scene.travel)) +
                " (field 'travel'): the clip is mirrored or one of the two is wrong; settle it "
                "before any reading.");
    }
    return {};
}

cv::Mat cameraOf(const Lens& lens)
{
    return (cv::Mat_<double>(3, 3) << lens.fx, 0, lens.cx, 0, lens.fy, lens.cy, 0, 0, 1);
}

cv::Mat distortionOf(const Lens& lens)
{
    return (cv::Mat_<double>(1, 5) << lens.k1, lens.k2, lens.p1, lens.p2, lens.k3);
}

PixelPoint project(const std::array<double, 9>& h, PixelPoint p)
{
    const double w = h[6] * p.u + h[7] * p.v + h[8];
    return {(h[0] * p.u + h[1] * p.v + h[2]) / w, (h[3] * p.u + h[4] * p.v + h[5]) / w};
}

std::array<double, 9> toArray(const cv::Matx33d& m)
{
    std::array<double, 9> values{};
    std::copy(std::begin(m.val), std::end(m.val), values.begin());
    return values;
}

PixelPoint undistortedBy(const std::optional<Lens>& lens, PixelPoint point)
{
    if (!lens) {
        return point;
    }
    // The default of five rounds leaves up to 0.001 px with ordinary phone lenses.
    const std::vector<cv::Point2d> in{{point.u, point.v}};
    std::vector<cv::Point2d> out;
    const auto camera = cameraOf(*lens);
    cv::undistortPoints(
        in, out, camera, distortionOf(*lens), cv::noArray(), camera,
        cv::TermCriteria(cv::TermCriteria::COUNT | cv::TermCriteria::EPS, 100, 1e-12));
    return {out[0].x, out[0].y};
}

/// Is any corner on the line through two others?
bool hasFlatCorner(const std::array<PixelPoint, 4>& corners)
{
    const auto area = [](PixelPoint a, PixelPoint b, PixelPoint c) {
        return std::abs((b.u - a.u) * (c.v - a.v) - (c.u - a.u) * (b.v - a.v));
    };
    for (std::size_t skip = 0; skip < 4; ++skip) {
        const auto& a = corners[(skip + 1) % 4];
        const auto& b = corners[(skip + 2) % 4];
        const auto& c = corners[(skip + 3) % 4];
        const double longest = std::max({distance(a, b), distance(b, c), distance(a, c)});
        if (area(a, b, c) < 0.01 * longest * longest) {
            return true;
        }
    }
    return false;
}

/// Pixel -> cm by four corners, in double precision (OpenCV's four-point routine takes floats).
Outcome<cv::Matx33d> homographyOf(const PlaneCorners& plane, const std::optional<Lens>& lens)
{
    std::array<PixelPoint, 4> image;
    std::array<PixelPoint, 4> world;
    for (std::size_t i = 0; i < 4; ++i) {
        image[i] = undistortedBy(lens, plane.image[i]);
        world[i] = {plane.cm[i][0], plane.cm[i][1]};
    }
    if (hasFlatCorner(image) || hasFlatCorner(world)) {
        return fail(
            Error::Kind::Inconsistent,
            "Three of the four corners (field 'plane') lie on one line: draw the corners of a "
            "rectangle in the runner's plane, in turn.");
    }
    cv::Matx<double, 8, 8> a;
    cv::Matx<double, 8, 1> b;
    for (int i = 0; i < 4; ++i) {
        const auto [u, v] = image[static_cast<std::size_t>(i)];
        const auto [x, y] = world[static_cast<std::size_t>(i)];
        const std::array<double, 8> rowX{u, v, 1, 0, 0, 0, -u * x, -v * x};
        const std::array<double, 8> rowY{0, 0, 0, u, v, 1, -u * y, -v * y};
        for (int j = 0; j < 8; ++j) {
            a(2 * i, j) = rowX[static_cast<std::size_t>(j)];
            a(2 * i + 1, j) = rowY[static_cast<std::size_t>(j)];
        }
        b(2 * i) = x;
        b(2 * i + 1) = y;
    }
    cv::Matx<double, 8, 1> h;
    if (!cv::solve(a, b, h, cv::DECOMP_LU)) {
        return fail(Error::Kind::Inconsistent, "The four corners (field 'plane') fix no plane.");
    }
    return cv::Matx33d(h(0), h(1), h(2), h(3), h(4), h(5), h(6), h(7), 1.0);
}

/// Plane turned so that the drawn plumb line is its vertical.
cv::Matx33d turnedToPlumb(const cv::Matx33d& toCm, const Scene& scene)
{
    if (!scene.plumb) {
        return toCm;
    }
    const auto h = toArray(toCm);
    const auto top = project(h, undistortedBy(scene.lens, scene.plumb->top));
    const auto bottom = project(h, undistortedBy(scene.lens, scene.plumb->bottom));
    const double tilt = std::atan2(top.u - bottom.u, top.v - bottom.v); // clockwise of y
    const double c = std::cos(tilt);
    const double s = std::sin(tilt);
    return cv::Matx33d(c, -s, 0, s, c, 0, 0, 0, 1) * toCm;
}

/// x to the picture's right and y up, both perpendicular and along plumb, k cm a pixel.
cv::Matx33d similarityOf(PixelPoint up, double k)
{
    const PixelPoint right{-up.v, up.u};
    return {k * right.u, k * right.v, 0, k * up.u, k * up.v, 0, 0, 0, 1};
}

MeanScale scaleOf(const Scene& scene)
{
    std::vector<DrawnLength> lengths;
    for (const auto& line : scaleLinesOf(scene)) {
        lengths.push_back(
            {.cm = line.lengthCm,
             .px = distance(undistortedBy(scene.lens, line.a), undistortedBy(scene.lens, line.b))});
    }
    return meanScale(lengths);
}

} // namespace

Outcome<Plane> Plane::from(const Scene& scene)
{
    RETURN_IF_ERROR(checkSides(scene));
    if (scene.plumb && distance(scene.plumb->top, scene.plumb->bottom) < shortestLine) {
        return fail(
            Error::Kind::Inconsistent,
            "The plumb line (field 'plumb') has no length on the picture: draw it along something "
            "that hangs or stands straight.");
    }
    for (const auto& line : scaleLinesOf(scene)) {
        RETURN_IF_ERROR(checkScale(line, scene));
    }
    Plane plane;
    plane.m_lens = scene.lens;
    plane.m_forward = isSideView(scene.view) ? (scene.travel == Travel::Right ? 1.0 : -1.0)
                                             : (scene.view == View::Rear ? 1.0 : -1.0);
    plane.m_plumbError = scene.plumb ? std::sqrt(2.0) * drawnEndError /
                                           distance(scene.plumb->top, scene.plumb->bottom)
                                     : levelledByEye;
    cv::Matx33d toCm;
    if (scene.plane) {
        ASSIGN_OR_RETURN(const auto homography, homographyOf(*scene.plane, scene.lens));
        toCm = turnedToPlumb(homography, scene);
        plane.m_scaleFrom = ScaleFrom::Corners;
        const auto& corners = scene.plane->image;
        plane.m_relativeScaleError =
            std::sqrt(2.0) * drawnEndError / std::max(distance(corners[0], corners[1]), 1.0);
    } else {
        auto undistorted = scene;
        if (undistorted.plumb) {
            undistorted.plumb = PlumbLine{undistortedBy(scene.lens, scene.plumb->top),
                                          undistortedBy(scene.lens, scene.plumb->bottom)};
        }
        double k = 1.0;
        if (scene.scale) {
            const auto mean = scaleOf(scene);
            k = mean.cmPerPixel;
            plane.m_scaleFrom = ScaleFrom::Line;
            plane.m_relativeScaleError = mean.relativeError;
        }
        toCm = similarityOf(upOf(undistorted), k);
    }
    plane.m_toCm = toArray(toCm);
    plane.m_toPixel = toArray(toCm.inv());
    return plane;
}

PixelPoint Plane::undistorted(PixelPoint point) const
{
    return undistortedBy(m_lens, point);
}

PixelPoint Plane::distorted(PixelPoint point) const
{
    if (!m_lens) {
        return point;
    }
    const std::vector<cv::Point3d> rays{
        {(point.u - m_lens->cx) / m_lens->fx, (point.v - m_lens->cy) / m_lens->fy, 1.0}};
    std::vector<cv::Point2d> out;
    cv::projectPoints(rays, cv::Vec3d(), cv::Vec3d(), cameraOf(*m_lens), distortionOf(*m_lens),
                      out);
    return {out[0].x, out[0].y};
}

PlanePoint Plane::toPlane(PixelPoint point, const SceneShift& shift) const
{
    const auto cm = project(m_toCm, undistorted(point));
    return shifted({m_forward * cm.u, cm.v}, shift);
}

PlanePoint Plane::shifted(PlanePoint point, const SceneShift& shift) const
{
    if (shift.rollRadians == 0.0 && shift.relativeScale == 0.0) {
        return point; // of ten thousands of marks hardly one is read otherwise
    }
    // A plumb line turned anticlockwise in the picture turns the axes so, hence the points
    // clockwise.
    const double c = std::cos(shift.rollRadians);
    const double s = std::sin(shift.rollRadians) * m_forward;
    const double k = 1.0 + shift.relativeScale;
    return {k * (c * point.x + s * point.y), k * (c * point.y - s * point.x)};
}

PixelPoint Plane::toPixel(PlanePoint point) const
{
    return distorted(project(m_toPixel, {m_forward * point.x, point.y}));
}

double Plane::cmPerPixel(PixelPoint at) const
{
    const auto here = toPlane(at);
    const auto right = toPlane({at.u + 1.0, at.v});
    const auto below = toPlane({at.u, at.v + 1.0});
    return std::sqrt(std::abs((right.x - here.x) * (below.y - here.y) -
                              (below.x - here.x) * (right.y - here.y)));
}

Plane Plane::withScale(double cmPerPixel, double relativeError, ScaleFrom from) const
{
    auto plane = *this;
    for (std::size_t i = 0; i < 6; ++i) {
        plane.m_toCm[i] *= cmPerPixel;
    }
    // The inverse of diag(k, k, 1) * H is H^-1 * diag(1/k, 1/k, 1): its first two columns shrink.
    for (const std::size_t i : {0U, 1U, 3U, 4U, 6U, 7U}) {
        plane.m_toPixel[i] /= cmPerPixel;
    }
    plane.m_scaleFrom = from;
    plane.m_relativeScaleError = relativeError;
    return plane;
}

} // namespace latemile
