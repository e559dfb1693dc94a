// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/stage.hpp"

#include <array>
#include <cmath>
#include <numbers>

namespace latemile::maker {

namespace {
constexpr std::array<Vec2, 4> samples{Vec2{0.25, 0.25}, Vec2{0.75, 0.25}, Vec2{0.25, 0.75},
                                      Vec2{0.75, 0.75}};

/// How much light is left under a shoe whose lowest point is `height` above the ground.
double shade(const SidePose& side, Vec3 ground)
{
    const double middle = 0.5 * (side.heel.x + side.toe.x);
    const double dx = (ground.x - middle) / 13.0;
    const double dz = (ground.z - side.ankle.z) / 5.5;
    const double away = dx * dx + dz * dz;
    if (away > 6.0) {
        return 1.0;
    }
    const double height = std::max(std::min(side.heel.y, side.toe.y), 0.0);
    return 1.0 - 0.55 * std::exp(-away) * std::exp(-height / 9.0);
}
} // namespace

Stage::Stage(const ClipRecipe& recipe, const RunnerModel& model)
    : m_recipe(recipe), m_model(model), m_camera(recipe.camera), m_room(recipe),
      m_belt(recipe.runner.seed), m_figure(m_camera, model.body(), recipe.runner.seed),
      m_clothAlong(recipe.runner.seed, 400), m_clothAcross(recipe.runner.seed, 401)
{
    drawRoom();
}

void Stage::drawRoom()
{
    m_still.create(m_recipe.camera.height, m_recipe.camera.width, CV_8UC3);
    for (int row = 0; row < m_still.rows; ++row) {
        for (int column = 0; column < m_still.cols; ++column) {
            drawPixel(row, column);
        }
    }
}

void Stage::drawPixel(int row, int column)
{
    Colour sum;
    Vec3 belt;
    int beltSamples = 0;
    Colour front;
    int frontSamples = 0;
    for (const Vec2 sample : samples) {
        const Vec3 ray = m_camera.ray({column + sample.x, row + sample.y});
        const auto sight = m_room.look(m_camera.position(), ray);
        sum = sum + sight.colour * 0.25;
        if (sight.belt) {
            belt = belt + *sight.belt;
            ++beltSamples;
        }
        if (const auto before = m_room.lookBefore(m_camera.position(), ray)) {
            front = front + *before;
            ++frontSamples;
        }
    }
    m_still.at<cv::Vec3b>(row, column) = {level(sum.b), level(sum.g), level(sum.r)};
    if (beltSamples > 0) {
        m_ground.push_back({row, column, belt * (1.0 / beltSamples), beltSamples / 4.0});
    } else if (m_recipe.runner.overground) {
        const Vec3 from = m_camera.position();
        const Vec3 ray = m_camera.ray({column + 0.5, row + 0.5});
        const Vec3 place = ray.y < 0 ? from + ray * (-from.y / ray.y) : Vec3{0, 0, 1e3};
        if (std::abs(place.z) < 20.0) {
            m_ground.push_back({row, column, place, 0.0});
        }
    }
    if (frontSamples > 0) {
        m_front.push_back({row, column, front * (1.0 / frontSamples), frontSamples / 4.0});
    }
}

void Stage::layGround(const Pose& pose, double seconds)
{
    const double speed = m_model.gait().beltSpeed;
    const double smear = speed * m_recipe.picture.exposure;
    for (const auto& pixel : m_ground) {
        auto& out = m_picture.at<cv::Vec3b>(pixel.row, pixel.column);
        const double light = shade(pose.left, pixel.place) * shade(pose.right, pixel.place);
        Colour colour{static_cast<double>(out[0]), static_cast<double>(out[1]),
                      static_cast<double>(out[2])};
        if (pixel.belt > 0.0) {
            const auto moving =
                m_belt.at(pixel.place.x + speed * seconds, pixel.place.z, smear) * 1.15;
            colour = blend(colour, moving, pixel.belt);
        }
        out = {level(colour.b * light), level(colour.g * light), level(colour.r * light)};
    }
}

void Stage::layFront()
{
    for (const auto& pixel : m_front) {
        auto& out = m_picture.at<cv::Vec3b>(pixel.row, pixel.column);
        out = {level(out[0] + pixel.cover * (pixel.colour.b - out[0])),
               level(out[1] + pixel.cover * (pixel.colour.g - out[1])),
               level(out[2] + pixel.cover * (pixel.colour.r - out[2]))};
    }
}

int Stage::exposures() const
{
    // A swinging foot passes the camera at two to three times the belt's speed: one drawing for
    // every two pixels of its smear looks continuous.
    const double fastest = 2.5 * m_model.gait().beltSpeed;
    const double pixels = fastest * m_recipe.picture.exposure * m_camera.pixelsPerCm({});
    return std::clamp(static_cast<int>(std::ceil(pixels / 2.0)), 1, 12);
}

/// Cloth flaps with every step, and never twice alike.
Vec2 Stage::clothSlip(double seconds) const
{
    const double steps = m_recipe.runner.stepRate / 60.0 * seconds;
    const double flap = std::sin(2.0 * std::numbers::pi * steps);
    const double cm = m_recipe.picture.looseCloth;
    return Vec2{0.6 * flap + 0.4 * m_clothAlong.at(seconds),
                0.3 * flap + 0.4 * m_clothAcross.at(seconds)} *
           cm;
}

const cv::Mat& Stage::render(double seconds)
{
    const Pose middle = m_model.pose(seconds);
    m_still.copyTo(m_picture);
    layGround(middle, seconds);
    cv::Rect box = m_figure.box(middle);
    // The box must hold the figure over the whole exposure, not only at its middle.
    const int spare = static_cast<int>(3.0 * m_model.gait().beltSpeed * m_recipe.picture.exposure *
                                       m_camera.pixelsPerCm({})) +
                      2;
    box = cv::Rect(box.x - spare, box.y - spare, box.width + 2 * spare, box.height + 2 * spare) &
          cv::Rect(0, 0, m_picture.cols, m_picture.rows);
    if (!box.empty()) {
        const int count = exposures();
        m_sum.create(box.size(), CV_16UC3);
        m_sum.setTo(0);
        cv::Mat layer;
        for (int i = 0; i < count; ++i) {
            const double share = (i + 0.5) / count - 0.5;
            m_picture(box).copyTo(layer);
            const double now = seconds + share * m_recipe.picture.exposure;
            m_figure.paint(layer, box.tl(), m_model.pose(now), clothSlip(now));
            cv::add(m_sum, layer, m_sum, cv::noArray(), CV_16U);
        }
        cv::Mat target = m_picture(box);
        m_sum.convertTo(target, CV_8U, 1.0 / count);
    }
    layFront();
    return m_picture;
}

} // namespace latemile::maker
