// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/propagation.hpp"
#include "core/measures/slopes.hpp"

#include <vector>

namespace latemile {

/// The error of one mark as it moves the value, along u and v.
struct Push {
    double u{};
    double v{};
};

/// Of each mark the value used, in the order of Evidence::marksUsed().
[[nodiscard]] std::vector<Push> pushesOf(const PreparedClip& clip, const Evidence& base,
                                         const Slopes& slopes);

/// Adds to the variance of each landmark what its marks push; the marks of one followed path push
/// together with what they share.
void addMarkShares(DetailedShares& detail, const PreparedClip& clip,
                   const std::vector<MarkKey>& marks, const std::vector<Push>& pushes);

} // namespace latemile
