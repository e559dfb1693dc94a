// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"
#include "core/store/session.hpp"

#include <filesystem>
#include <string>

namespace latemile {

/// What the readings of a session's clip are computed from, for a holder that has the clip open
/// already. `date` of the session; `facts` and `index` of the clip's file.
[[nodiscard]] MarkedClip markedClipOf(const SessionClip& clip, const std::string& date,
                                      const ClipFacts& facts, const FrameIndex& index,
                                      const AthleteFacts& athlete, const ClickErrors& clicks = {});

/// The same for a session's clip in its folder: opens the file for its times and checks marks and
/// contacts against it.
Outcome<MarkedClip> markedClipOf(const std::filesystem::path& sessionFolder, const Session& session,
                                 const SessionClip& clip, const AthleteFacts& athlete);

} // namespace latemile
