// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/readings.hpp"

#include <string>

namespace latemile::batch {

/// Readings for a person at a terminal: the clip, the checks, each measure's mean with its error,
/// and why values are missing.
[[nodiscard]] std::string readingsText(const Readings& readings);

} // namespace latemile::batch
