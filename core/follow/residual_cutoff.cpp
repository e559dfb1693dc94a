// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/residual_cutoff.hpp"

#include "core/follow/low_pass.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

constexpr double lowest = 6.0; ///< Hz
constexpr std::size_t fewestSamples = 30;
constexpr int steps = 40;

double takenAway(const std::vector<double>& samples, double rate, double cutoff)
{
    const auto kept = zeroLag(samples, rate, cutoff);
    double sum = 0.0;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        sum += (samples[i] - kept[i]) * (samples[i] - kept[i]);
    }
    return std::sqrt(sum / static_cast<double>(samples.size()));
}

/// Where the least-squares line through the points meets the axis.
double intercept(const std::vector<double>& x, const std::vector<double>& y)
{
    const auto n = static_cast<double>(x.size());
    double sx = 0.0, sy = 0.0, sxx = 0.0, sxy = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        sx += x[i];
        sy += y[i];
        sxx += x[i] * x[i];
        sxy += x[i] * y[i];
    }
    const double slope = (n * sxy - sx * sy) / (n * sxx - sx * sx);
    return (sy - slope * sx) / n;
}

} // namespace

double residualCutoff(const std::vector<double>& samples, double rate)
{
    const double highest = 0.25 * rate;
    if (samples.size() < fewestSamples || highest <= lowest) {
        return highest;
    }
    std::vector<double> tailX;
    std::vector<double> tailY;
    std::vector<double> cutoffs;
    std::vector<double> residuals;
    for (int i = 0; i <= steps; ++i) {
        const double cutoff = lowest + (highest - lowest) * i / steps;
        cutoffs.push_back(cutoff);
        residuals.push_back(takenAway(samples, rate, cutoff));
        if (i >= steps / 2) {
            tailX.push_back(cutoff);
            tailY.push_back(residuals.back());
        }
    }
    const double noise = intercept(tailX, tailY);
    const auto found = std::find_if(residuals.begin(), residuals.end(),
                                    [&](double residual) { return residual <= noise; });
    return found == residuals.end() ? highest
                                    : cutoffs[static_cast<std::size_t>(found - residuals.begin())];
}

} // namespace latemile
