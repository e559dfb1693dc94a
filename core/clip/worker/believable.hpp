// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"
#include "core/clip/upright.hpp"

#include <cstddef>
#include <cstdint>
#include <vector>

namespace latemile {

// Whether what a worker says of a clip can be true of any clip. A worker taken over by a hostile
// file may still lie within these bounds; it cannot make the program reckon with nonsense.

/// Sides, pixels and pixel aspect within what is decoded; a quarter turn.
[[nodiscard]] bool isBelievable(const UprightShape& shape);
/// Rates and lengths that are numbers of their kind.
[[nodiscard]] bool isBelievable(const ClipFacts& facts);
/// At least one frame; from 0 on, never decreasing, finite.
[[nodiscard]] bool areBelievableTimes(const std::vector<double>& times);
/// One for each frame, none behind its frame.
[[nodiscard]] bool areBelievableStarts(const std::vector<std::int64_t>& starts, std::size_t frames);

} // namespace latemile
