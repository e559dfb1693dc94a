// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "sample_clips/maker/belt.hpp"
#include "sample_clips/maker/figure_painter.hpp"
#include "sample_clips/maker/random.hpp"
#include "sample_clips/maker/room.hpp"

#include <vector>

namespace latemile::maker {

/// The whole picture at one time: room, moving belt, shadows, runner, and what stands before the
/// runner. The room is drawn once and kept.
class Stage {
public:
    Stage(const ClipRecipe& recipe, const RunnerModel& model);
    Stage(const Stage&) = delete;
    Stage& operator=(const Stage&) = delete;

    /// What the sensor gathers over the exposure around `seconds`, 8-bit BGR. Kept until the next
    /// call.
    const cv::Mat& render(double seconds);
    [[nodiscard]] const Camera& camera() const { return m_camera; }
    [[nodiscard]] const Room& room() const { return m_room; }

private:
    struct GroundPixel {
        int row{};
        int column{};
        Vec3 place;    ///< on the belt or the floor
        double belt{}; ///< share of the pixel that is belt
    };
    struct FrontPixel {
        int row{};
        int column{};
        Colour colour;
        double cover{};
    };
    void drawRoom();
    void drawPixel(int row, int column);
    void layGround(const Pose& pose, double seconds);
    void layFront();
    [[nodiscard]] int exposures() const;
    [[nodiscard]] Vec2 clothSlip(double seconds) const;

    ClipRecipe m_recipe;
    const RunnerModel& m_model;
    Camera m_camera;
    Room m_room;
    BeltTexture m_belt;
    FigurePainter m_figure;
    Wander m_clothAlong;
    Wander m_clothAcross;
    cv::Mat m_still;   ///< the room without the belt
    cv::Mat m_picture; ///< the last picture rendered
    cv::Mat m_sum;
    std::vector<GroundPixel> m_ground;
    std::vector<FrontPixel> m_front;
};

} // namespace latemile::maker
