// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/own_measures.hpp"
#include "core/outcome.hpp"

#include <filesystem>

namespace latemile {

/// LIBRARY/own_measures.json (resources/schema/own_measures.schema.json), the coach's own for every
/// athlete of a library. A library without one has none; faults name file and field.
Outcome<OwnMeasures> ownMeasuresIn(const std::filesystem::path& library);

/// Puts `own` in the place of `before`, which is what the caller had read. Atomic. A document that
/// cannot be read, or that somebody else changed meanwhile, stays as it is and is an Error.
Outcome<void> keepOwnMeasures(const OwnMeasures& own, const OwnMeasures& before,
                              const std::filesystem::path& library);

} // namespace latemile
