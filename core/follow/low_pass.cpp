// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/low_pass.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace latemile {

namespace {

constexpr std::size_t extension = 9;

/// Continued beyond both ends as if turned by half a circle about the end sample.
std::vector<double> extended(const std::vector<double>& samples)
{
    std::vector<double> all;
    all.reserve(samples.size() + 2 * extension);
    for (std::size_t i = extension; i > 0; --i) {
        all.push_back(2.0 * samples.front() - samples[i]);
    }
    all.insert(all.end(), samples.begin(), samples.end());
    for (std::size_t i = 1; i <= extension; ++i) {
        all.push_back(2.0 * samples.back() - samples[samples.size() - 1 - i]);
    }
    return all;
}

/// One pass, begun in the steady state of its first sample (transposed direct form II).
void pass(std::vector<double>& samples, const SecondOrderFilter& f)
{
    const double gain = (f.b0 + f.b1 + f.b2) / (1.0 + f.a1 + f.a2);
    double second = (f.b2 - f.a2 * gain) * samples.front();
    double first = (f.b1 - f.a1 * gain) * samples.front() + second;
    for (auto& sample : samples) {
        const double in = sample;
        sample = f.b0 * in + first;
        first = f.b1 * in - f.a1 * sample + second;
        second = f.b2 * in - f.a2 * sample;
    }
}

} // namespace

double cutoffCorrection(int passes)
{
    return std::pow(std::pow(2.0, 1.0 / passes) - 1.0, 0.25);
}

SecondOrderFilter butterworth(double rate, double cutoff, int passes)
{
    const double kept = std::min(cutoff, 0.45 * rate);
    const double w = std::tan(std::numbers::pi * kept / rate) / cutoffCorrection(passes);
    const double k = 1.0 + std::numbers::sqrt2 * w + w * w;
    const double b = w * w / k;
    return {b, 2.0 * b, b, 2.0 * (w * w - 1.0) / k, (1.0 - std::numbers::sqrt2 * w + w * w) / k};
}

std::vector<double> zeroLag(const std::vector<double>& samples, const SecondOrderFilter& filter)
{
    if (samples.size() <= extension) {
        return samples;
    }
    auto all = extended(samples);
    pass(all, filter);
    std::reverse(all.begin(), all.end());
    pass(all, filter);
    std::reverse(all.begin(), all.end());
    const auto begin = all.begin() + static_cast<std::ptrdiff_t>(extension);
    return {begin, begin + static_cast<std::ptrdiff_t>(samples.size())};
}

std::vector<double> zeroLag(const std::vector<double>& samples, double rate, double cutoff)
{
    return zeroLag(samples, butterworth(rate, cutoff, 2));
}

} // namespace latemile
