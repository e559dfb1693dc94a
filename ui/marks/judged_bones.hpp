// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/bones.hpp"

#include <vector>

namespace latemile::ui {

class ClipDocument;

/// Bones that are not as long as on the clip's other frames. Of a followed clip the frames of the
/// cells and what the coach placed are judged, not every frame between. Side views only.
[[nodiscard]] std::vector<OddBone> oddBonesOf(const ClipDocument& clip);

} // namespace latemile::ui
