// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/sensor.hpp"

#include "sample_clips/maker/random.hpp"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace latemile::maker {

namespace {
constexpr std::size_t grains = 1U << 18U;

void addRow(std::uint8_t* row, const std::int8_t* grain, int width)
{
    for (int x = 0; x < width; ++x) {
        row[x] = static_cast<std::uint8_t>(std::clamp(row[x] + grain[x], 0, 255));
    }
}
} // namespace

Sensor::Sensor(const PictureRecipe& recipe, std::uint64_t seed) : m_recipe(recipe), m_seed(seed)
{
    if (recipe.noise > 0.0) {
        m_grain.reserve(grains);
        for (std::uint64_t i = 0; i < grains; ++i) {
            m_grain.push_back(
                static_cast<std::int8_t>(std::lround(recipe.noise * normal(seed, 400, i))));
        }
    }
}

cv::Mat Sensor::expose(const cv::Mat& picture, std::uint64_t frame, double progress) const
{
    cv::Mat planes;
    if (m_recipe.lightingChange > 0.0) {
        const double wave = 0.5 - 0.5 * std::cos(2 * std::numbers::pi * progress);
        cv::Mat dimmed;
        picture.convertTo(dimmed, CV_8U, 1.0 - m_recipe.lightingChange * wave);
        cv::cvtColor(dimmed, planes, cv::COLOR_BGR2YUV_I420);
    } else {
        cv::cvtColor(picture, planes, cv::COLOR_BGR2YUV_I420);
    }
    if (!m_grain.empty()) {
        addNoise(planes, frame);
    }
    return planes;
}

void Sensor::addNoise(cv::Mat& planes, std::uint64_t frame) const
{
    // Each row takes the grain from another place, so that no pattern stands still.
    const std::size_t places = grains - static_cast<std::size_t>(planes.cols);
    for (int y = 0; y < planes.rows; ++y) {
        const double share = uniform(m_seed + 3, frame, static_cast<std::uint64_t>(y));
        const auto place = static_cast<std::size_t>(share * static_cast<double>(places));
        addRow(planes.ptr<std::uint8_t>(y), m_grain.data() + place, planes.cols);
    }
}

} // namespace latemile::maker
