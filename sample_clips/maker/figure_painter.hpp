// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "sample_clips/maker/camera.hpp"
#include "sample_clips/maker/part_painter.hpp"
#include "sample_clips/maker/runner_model.hpp"

namespace latemile::maker {

/// Paints the runner in a pose: far arm and leg first and darker, then trunk and head, then the
/// near leg and arm.
class FigurePainter {
public:
    FigurePainter(const Camera& camera, const Body& body, std::uint64_t seed);
    FigurePainter(const FigurePainter&) = delete;
    FigurePainter& operator=(const FigurePainter&) = delete;

    /// Into the part of the picture whose top left corner is `corner`, 8-bit BGR. `clothSlip`: how
    /// far shirt and shorts have slid on the body, cm.
    void paint(cv::Mat& picture, cv::Point corner, const Pose& pose, Vec2 clothSlip = {}) const;
    /// The box that holds the runner in this pose, within the picture; empty when out of it.
    [[nodiscard]] cv::Rect box(const Pose& pose) const;

private:
    struct Canvas {
        cv::Mat& picture;
        Vec2 corner;
        Vec2 clothSlip;
    };
    void paintSide(const Canvas& canvas, const Pose& pose) const;
    void paintRear(const Canvas& canvas, const Pose& pose) const;
    void paintArm(const Canvas& canvas, const SidePose& side, double brightness) const;
    void paintLeg(const Canvas& canvas, const SidePose& side, double brightness) const;
    void paintShoe(const Canvas& canvas, const SidePose& side, double brightness) const;
    void paintShoeFromBehind(const Canvas& canvas, const SidePose& side, double brightness) const;
    void paintTrunk(const Canvas& canvas, const Pose& pose) const;
    void paintHead(const Canvas& canvas, const Pose& pose) const;
    /// The plane of a part from one joint to the next; its front is towards where the runner goes
    /// (rear view: the runner's right).
    [[nodiscard]] Placement between(Vec3 first, Vec3 second, double lengthCm) const;

    const Camera& m_camera;
    double m_scale; ///< against a runner of 167 cm, for whom the outlines are drawn
    double m_shoe;
    double m_ball;
    View m_view;
    Outfit m_outfit;
    Relief m_relief;
    PartPainter m_parts;
};

} // namespace latemile::maker
