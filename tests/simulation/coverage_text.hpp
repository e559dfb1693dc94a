// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/simulation/coverage.hpp"

#include <string>

namespace latemile::simulation {

/// The result as a table of Markdown, a row a measure in the order of the table of measures.
[[nodiscard]] std::string tableOf(const Result& result);

/// One line: how many clips, and which measures lie outside 93 to 97 % or above 5 % false.
[[nodiscard]] std::string summaryOf(const Result& result);

} // namespace latemile::simulation
