// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"

#include <filesystem>
#include <functional>

namespace latemile::ui {

/// Asked now and then with the share done, from 0 to 1; false stops the work.
using WorkGoesOn = std::function<bool(double)>;

/// Opens a clip for work away from the window's thread, as the first small part of it.
[[nodiscard]] Outcome<ClipReader> openForWork(const std::filesystem::path& file,
                                              ClipOptions options, const WorkGoesOn& goesOn);

/// What tells the rest of the work, as a share of its own.
[[nodiscard]] WorkGoesOn afterOpening(const WorkGoesOn& goesOn);

} // namespace latemile::ui
