// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/session.hpp"

#include <string>

namespace latemile {

/// Why the athlete should see a licensed clinician before any form work: pain noted at a clip, or
/// a red flag ticked before filming. Stands on the sheet in the place of the cues; empty where
/// nothing of the kind was noted.
[[nodiscard]] std::string clinicianWords(const Session& session);

} // namespace latemile
