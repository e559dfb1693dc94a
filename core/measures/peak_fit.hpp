// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

namespace latemile {

/// A value at a time, seconds.
struct Sample {
    double time{};
    double value{};
    bool operator==(const Sample&) const = default;
};

enum class Extreme { Highest, Lowest };

/// Half of the stretch around an extreme that the parabola is fitted to, seconds.
inline constexpr double peakHalfWidth = 0.035;
inline constexpr std::size_t peakFewestSamples = 5;
/// Half of the stretch around each sample that smooths it while an extreme is looked for, seconds.
inline constexpr double smoothingHalfWidth = 0.060;

/// Vertex of the least-squares parabola through the samples; nothing for fewer than three different
/// times or a parabola that is flat or open the wrong way for `kind`.
[[nodiscard]] std::optional<Sample> parabolaVertex(const std::vector<Sample>& samples,
                                                   Extreme kind);

/// Which samples an extreme was read from, and its value.
struct Peak {
    Sample vertex;
    /// How far the vertex's value rises a unit of each sample of the fit, first order; they sum up
    /// to 1.
    std::vector<double> weights;
    std::size_t first{}; ///< samples [first, last) entered the fit
    std::size_t last{};
};

/// The extreme of noisy samples (in order of time) between `from` and `to`. It is looked for among
/// the samples as smoothed over +-60 ms, since the largest of noisy samples stands where the noise
/// is largest; its value is the vertex of a parabola over +-35 ms of the samples themselves around
/// it, less what the vertex of a noisy parabola exceeds the true one by on average. Samples outside
/// the stretch help; the vertex is held inside it. Nothing with fewer than five samples in the fit.
[[nodiscard]] std::optional<Peak> peakOf(const std::vector<Sample>& samples, double from, double to,
                                         Extreme kind);

} // namespace latemile
