// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"
#include "core/store/session.hpp"

#include <string>

namespace latemile {

/// What the readings of a session's clip are computed from, for a holder that has the clip open
/// already. `date` of the session; `facts` and `index` of the clip's file.
[[nodiscard]] MarkedClip markedClipOf(const SessionClip& clip, const std::string& date,
                                      const ClipFacts& facts, const FrameIndex& index,
                                      const AthleteFacts& athlete);

} // namespace latemile
