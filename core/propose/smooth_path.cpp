// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/smooth_path.hpp"

#include "core/median.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

constexpr Seconds reach{0.030};
constexpr std::size_t fewest = 5;
constexpr int rounds = 4;
/// Residuals beyond this many typical ones do not count.
constexpr double outlierFrom = 4.0;
/// A typical residual is never taken smaller: a fit through exact samples has no outliers.
constexpr double leastResidual = 0.5; ///< pixels

std::span<const PathSample> around(std::span<const PathSample> samples, Seconds time)
{
    const auto from =
        std::lower_bound(samples.begin(), samples.end(), time - reach,
                         [](const PathSample& sample, Seconds edge) { return sample.time < edge; });
    const auto to =
        std::upper_bound(from, samples.end(), time + reach,
                         [](Seconds edge, const PathSample& sample) { return edge < sample.time; });
    return {from, to};
}

/// The fitted parabola at `time`.
PixelPoint fitted(std::span<const PathSample> near, Seconds time)
{
    const auto count = static_cast<Eigen::Index>(near.size());
    Eigen::MatrixX3d powers(count, 3);
    Eigen::MatrixX2d places(count, 2);
    Eigen::VectorXd nearness(count);
    for (Eigen::Index k = 0; k < count; ++k) {
        const auto& sample = near[static_cast<std::size_t>(k)];
        const double x = (sample.time - time) / reach;
        powers.row(k) << 1.0, x, x * x;
        places.row(k) << sample.at.u, sample.at.v;
        const double inside = 1.0 - std::pow(std::min(std::abs(x), 0.98), 3);
        nearness[k] = sample.weight * std::pow(inside, 3);
    }
    Eigen::VectorXd weights = nearness;
    Eigen::Matrix<double, 3, 2> parabola;
    for (int round = 0; round < rounds; ++round) {
        const Eigen::VectorXd roots = weights.cwiseSqrt();
        parabola = (roots.asDiagonal() * powers)
                       .colPivHouseholderQr()
                       .solve(Eigen::MatrixXd(roots.asDiagonal() * places));
        const Eigen::VectorXd residuals = (places - powers * parabola).rowwise().norm();
        const double typical = std::max(
            upperMedianOf(std::vector<double>(residuals.begin(), residuals.end())), leastResidual);
        for (Eigen::Index k = 0; k < count; ++k) {
            const double share = residuals[k] / (outlierFrom * typical);
            const double trust = share < 1 ? (1 - share * share) * (1 - share * share) : 0.0;
            weights[k] = nearness[k] * std::max(trust, 1e-6);
        }
    }
    return {parabola(0, 0), parabola(0, 1)};
}

} // namespace

std::vector<PixelPoint> smoothed(std::span<const PathSample> samples)
{
    std::vector<PixelPoint> path;
    for (const auto& sample : samples) {
        const auto near = around(samples, sample.time);
        path.push_back(near.size() < fewest ? sample.at : fitted(near, sample.time));
    }
    return path;
}

} // namespace latemile
