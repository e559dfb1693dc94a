// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/scene/scale_lines.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

constexpr double tapeError = 0.5; ///< cm

} // namespace

double relativeLineError(const DrawnLength& line)
{
    return std::hypot(tapeError / line.cm, std::sqrt(2.0) * drawnEndError / line.px);
}

MeanScale meanScale(std::span<const DrawnLength> lines)
{
    double weights = 0.0;
    double sum = 0.0;
    const auto weightOf = [](const DrawnLength& line) {
        const double error = line.cm / line.px * relativeLineError(line);
        return 1.0 / (error * error);
    };
    for (const auto& line : lines) {
        weights += weightOf(line);
        sum += weightOf(line) * line.cm / line.px;
    }
    MeanScale mean{.cmPerPixel = sum / weights,
                   .relativeError = weights / sum / std::sqrt(weights),
                   .disagreement = 0.0};
    if (lines.size() > 1) {
        double chiSquared = 0.0;
        for (const auto& line : lines) {
            const double off = line.cm / line.px - mean.cmPerPixel;
            chiSquared += weightOf(line) * off * off;
        }
        mean.disagreement = std::sqrt(chiSquared / static_cast<double>(lines.size() - 1));
        mean.relativeError *= std::max(1.0, mean.disagreement);
    }
    return mean;
}

std::vector<ScaleLine> scaleLinesOf(const Scene& scene)
{
    std::vector<ScaleLine> lines;
    if (scene.scale) {
        lines.push_back(*scene.scale);
        lines.insert(lines.end(), scene.moreScales.begin(), scene.moreScales.end());
    }
    return lines;
}

Scene withScaleLines(Scene scene, std::vector<ScaleLine> lines)
{
    scene.scale.reset();
    scene.moreScales.clear();
    if (!lines.empty()) {
        scene.scale = lines.front();
        scene.moreScales.assign(lines.begin() + 1, lines.end());
    }
    return scene;
}

std::optional<MeanScale> meanScaleOf(const Scene& scene)
{
    std::vector<DrawnLength> lengths;
    for (const auto& line : scaleLinesOf(scene)) {
        const double px = std::hypot(line.b.u - line.a.u, line.b.v - line.a.v);
        if (px > 0.0 && line.lengthCm > 0.0) {
            lengths.push_back({line.lengthCm, px});
        }
    }
    return lengths.empty() ? std::nullopt : std::optional(meanScale(lengths));
}

} // namespace latemile
