// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_file.hpp"
#include "core/outcome.hpp"

namespace latemile {

/// Why libav could not open this file, in one sentence for the coach: cut off before its table of
/// frames was written, no video at all, a kind that is not read. `code` is libav's result.
[[nodiscard]] Error unreadable(const ClipFile& file, int code);

} // namespace latemile
