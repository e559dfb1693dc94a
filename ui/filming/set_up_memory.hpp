// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/filming/camera_set_up.hpp"

namespace latemile::ui {

/// The set-up the coach worked out last, kept in the settings; the ordinary one before the first.
[[nodiscard]] CameraSetUp rememberedSetUp();
void rememberSetUp(const CameraSetUp& setUp);

} // namespace latemile::ui
