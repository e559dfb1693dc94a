// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/compare/comparison.hpp"

#include <string>

namespace latemile {

/// COMPARISON.csv: a row a measure and foot, numbers as computed.
[[nodiscard]] std::string comparisonCsv(const Comparison& comparison);

} // namespace latemile
