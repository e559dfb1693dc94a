// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

namespace latemile {

/// Values at `where` of the shape-preserving cubic through the knots (Fritsch & Butland 1984, by
/// Boost.Math): it never overshoots the samples, so a bridged foot does not dip below the ground.
/// `x` rising, four knots at least; `where` between the first and the last of them.
[[nodiscard]] std::vector<double> shapePreserving(const std::vector<double>& x,
                                                  const std::vector<double>& y,
                                                  const std::vector<double>& where);

} // namespace latemile
