// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

namespace latemile::ui {

/// What the coach answered when a camera's files could hide slow motion, kept in the settings by
/// the camera's signature: frames per real second as a multiple of what the file plays, so that 1
/// is real time.
[[nodiscard]] std::optional<double> rememberedSlowMotion(const std::string& signature);
void rememberSlowMotion(const std::string& signature, double factor);

} // namespace latemile::ui
