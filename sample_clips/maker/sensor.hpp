// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "sample_clips/maker/recipe.hpp"

#include <opencv2/core.hpp>

#include <cstdint>
#include <vector>

namespace latemile::maker {

/// Turns a clean picture into what a camera stores: light that changes, noise, and 4:2:0 planes
/// (BT.601, limited range) as one 8-bit matrix of 3/2 the height.
class Sensor {
public:
    Sensor(const PictureRecipe& recipe, std::uint64_t seed);
    /// `progress` runs from 0 at the clip's start to 1 at its end; `frame` keys the noise.
    [[nodiscard]] cv::Mat expose(const cv::Mat& picture, std::uint64_t frame,
                                 double progress) const;

private:
    void addNoise(cv::Mat& planes, std::uint64_t frame) const;

    PictureRecipe m_recipe;
    std::uint64_t m_seed;
    std::vector<std::int8_t> m_grain;
};

} // namespace latemile::maker
