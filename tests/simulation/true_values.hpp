// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/simulation/true_run.hpp"

namespace latemile::simulation {

/// Of every measure of a step, at exact instants, from the moving body itself and none of the
/// formulas of the core: the maker's own readings, and here what they leave out.
[[nodiscard]] std::map<std::string, std::vector<std::optional<double>>>
trueValues(const TrueRun& run);

} // namespace latemile::simulation
