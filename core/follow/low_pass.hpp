// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

namespace latemile {

/// A recursive filter of second order: y[n] = b0 x[n] + b1 x[n-1] + b2 x[n-2] - a1 y[n-1] - a2
/// y[n-2].
struct SecondOrderFilter {
    double b0{}, b1{}, b2{};
    double a1{}, a2{};
};

/// Butterworth low-pass by the bilinear transform. `rate` in samples a second; `cutoff` in Hz, -3
/// dB after so many passes over the data: each pass lowers that point, which tan(pi fc / fs)
/// divided by (2^(1/passes) - 1)^(1/4) makes up for (Winter, Biomechanics and Motor Control of
/// Human Movement). The cut-off is kept below 0.45 of the rate.
[[nodiscard]] SecondOrderFilter butterworth(double rate, double cutoff, int passes);
[[nodiscard]] double cutoffCorrection(int passes);

/// Forwards and backwards, so that nothing is delayed; `cutoff` holds for both passes together.
/// Ends as scipy.signal.filtfilt treats them: nine samples of odd extension, steady state before.
/// Fewer than ten samples are returned as they are.
[[nodiscard]] std::vector<double> zeroLag(const std::vector<double>& samples, double rate,
                                          double cutoff);
[[nodiscard]] std::vector<double> zeroLag(const std::vector<double>& samples,
                                          const SecondOrderFilter& filter);

} // namespace latemile
