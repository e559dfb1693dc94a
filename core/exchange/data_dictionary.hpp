// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/own_measures.hpp"

#include <string>

namespace latemile {

/// What every column of the exported tables and every measure means, as a table itself:
/// table,name,unit,meaning,source. Of the measures (table "measure") from the table that the
/// program computes by, and a coach's own after them.
[[nodiscard]] std::string dataDictionary(const OwnMeasures& own = {});

} // namespace latemile
