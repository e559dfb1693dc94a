// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

namespace latemile {

/// The cut-off frequency that splits movement from noise, by residual analysis (Winter,
/// Biomechanics and Motor Control of Human Movement): what a filter takes away, as a function of
/// its cut-off, falls along a straight line where it takes away noise alone; that line carried on
/// to 0 Hz is the noise, and the cut-off is where as much is taken away. Looked for between 6 Hz,
/// below which running itself would be cut, and a quarter of the rate, which is given where nothing
/// but noise-free movement is found or the samples are fewer than 30.
/// `rate` in samples a second; Hz.
[[nodiscard]] double residualCutoff(const std::vector<double>& samples, double rate);

} // namespace latemile
