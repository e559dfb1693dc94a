// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/compare/cues.hpp"
#include "core/store/session.hpp"

#include <string>
#include <vector>

namespace latemile {

/// The ids of the cues that the sheet of a session bears: those the coach chose, else those that
/// its measures suggest; none where a clinician comes first. Of the session only measures, cues,
/// screening and the clips' pain are looked at.
[[nodiscard]] std::vector<std::string> cuesOnSheet(const Session& session, const Readings& fresh,
                                                   const Readings& fatigued,
                                                   const std::vector<Cue>& cues);

} // namespace latemile
