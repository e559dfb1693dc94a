// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>

namespace latemile {

/// Asked now and then with the share done, 0 to 1; false stops the work (Error::Kind::Cancelled).
using GoOn = std::function<bool(double)>;

} // namespace latemile
