// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/scene/scene.hpp"

#include <span>
#include <vector>

namespace latemile {

/// How well the end of a line is drawn on the picture, px: with the close-up (choice of this
/// project).
inline constexpr double drawnEndError = 1.0;

/// A known length and how long it is drawn on the picture (free of the lens).
struct DrawnLength {
    double cm{};
    double px{};
};

/// What several lines say together.
struct MeanScale {
    double cmPerPixel{};
    double relativeError{}; ///< one standard error, share of the scale
    /// How far the lines lie apart, in units of what their own errors allow: about 1 where they
    /// agree (Birge's ratio); 0 for a single line.
    double disagreement{};
};

/// Share of a length that one drawn line is wrong by: the pole or tape is known to 0.5 cm, each of
/// its ends is drawn to 1 px (choices of this project).
[[nodiscard]] double relativeLineError(const DrawnLength& line);

/// The mean weighted with 1 / error squared. Where the lines lie further apart than their errors
/// allow, the error of the mean is widened by Birge's ratio (Birge 1932, Phys. Rev. 40:207). Needs
/// at least one line.
[[nodiscard]] MeanScale meanScale(std::span<const DrawnLength> lines);

/// `scale` first, then the further ones; none where there is no `scale`.
[[nodiscard]] std::vector<ScaleLine> scaleLinesOf(const Scene& scene);
/// The same scene with these lines.
[[nodiscard]] Scene withScaleLines(Scene scene, std::vector<ScaleLine> lines);
/// How the scene's lines agree, lens left aside; nothing without a line that has a length.
[[nodiscard]] std::optional<MeanScale> meanScaleOf(const Scene& scene);

} // namespace latemile
