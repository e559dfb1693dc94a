// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace latemile {

/// A number with so many decimals and a '.', rounded as printf rounds: "12.50". The same in every
/// country's settings, which printf is not once a window has started: files and sentences of one
/// clip must not depend on where they were written. `value` is finite, `decimals` 0 to 20.
[[nodiscard]] std::string decimalText(double value, int decimals);

} // namespace latemile
