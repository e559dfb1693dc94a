// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/sheet/sheet_content.hpp"

#include <string>
#include <vector>

namespace latemile {

/// Of each measure the row a sheet tells: both feet together where there is one, else the foot
/// nearest the camera. In the order of `measures`; a measure without a row is left out.
[[nodiscard]] std::vector<ComparisonRow>
rowsForSheet(const Comparison& comparison, const std::vector<std::string>& measures, Foot nearFoot);

/// "A" for the first row, "B" for the next; after "Z" none.
[[nodiscard]] std::string letterOf(std::size_t row);

/// The row in words; a change that was not judged is not told in figures. Its numbers are
/// rounded to the place of the change's error.
[[nodiscard]] SheetRow sheetRow(const ComparisonRow& row, std::string letter, Lengths lengths,
                                const OwnMeasures& own = {});

} // namespace latemile
