// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/own_formula.hpp"

namespace latemile {

// What the parser of a coach's formula asks of what it has read.

/// Does this part itself take landmarks?
[[nodiscard]] bool isMeasured(const OwnFormula::Node& node);

/// Every measured value below `node` is read at `at`; a fault where one has its own time. `column`
/// is where the "at" stands.
Outcome<void> spread(OwnFormula::Node& node, Instant at, std::size_t column);

/// What may not stand where every frame of a phase is looked at; null where nothing does.
[[nodiscard]] const OwnFormula::Node* notOnEveryFrame(const OwnFormula::Node& node);

/// Puts the landmarks and sides of `node` and all below it into `into`.
void collect(const OwnFormula::Node& node, OwnFormula::Node& into);

/// Fills in what the formula needs: landmarks, instants, stretches. Every measured value must be
/// told when to read it.
Outcome<void> gather(const OwnFormula::Node& node, OwnFormula& formula);

/// All points near, or all told by side.
[[nodiscard]] bool mixesSides(const OwnFormula::Node& node, bool bySides);

} // namespace latemile
