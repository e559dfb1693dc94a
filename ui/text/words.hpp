// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/compare/comparison.hpp"
#include "core/marks/landmark.hpp"
#include "core/marks/steps.hpp"
#include "core/measures/measure.hpp"
#include "core/measures/readings.hpp"
#include "core/scene/scene.hpp"

#include <QString>

#include <string>
#include <string_view>

namespace latemile::ui {

/// What people read for the core's values, in their language. In the middle of a sentence: lower
/// case where the language has it.
[[nodiscard]] QString wordFor(Landmark landmark);
[[nodiscard]] QString wordFor(Foot foot);
[[nodiscard]] QString wordFor(Instant instant);
[[nodiscard]] QString wordFor(View view);
[[nodiscard]] QString wordFor(Travel travel);
[[nodiscard]] QString wordFor(Verdict verdict);
[[nodiscard]] QString wordFor(Check::State state);
[[nodiscard]] QString signFor(Check::State state); ///< ✓, ? or ✗
[[nodiscard]] QString wordFor(Origin origin);
/// "fresh", "fatigued", "other" as in session.json; empty: "no condition yet".
[[nodiscard]] QString wordForCondition(const std::string& condition);
/// The same word with a capital, for a heading or a cell of its own.
[[nodiscard]] QString capital(const QString& word);

[[nodiscard]] QString fromUtf8(std::string_view text);

} // namespace latemile::ui
