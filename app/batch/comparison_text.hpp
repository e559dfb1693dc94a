// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/compare/comparison.hpp"

#include <string>

namespace latemile::batch {

/// A comparison for a person at a terminal, numbers rounded to what their error deserves.
[[nodiscard]] std::string comparisonText(const Comparison& comparison);

} // namespace latemile::batch
