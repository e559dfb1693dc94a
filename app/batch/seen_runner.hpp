// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"
#include "core/propose/body_paths.hpp"
#include "core/propose/crop.hpp"
#include "core/propose/pose_networks.hpp"

#include <filesystem>
#include <optional>
#include <vector>

namespace latemile::batch {

/// How the runner moves on `frames` (in order) of a clip. Without a box, what was kept beside the
/// clip when it was looked at in the window is taken, with the legs as the coach exchanged them,
/// where it has all of the frames; else they are looked at now, by a network that is opened only
/// then, and nothing is kept. Its remarks begin with those on the clip, as that it was cut off.
Outcome<BodyPaths> seenRunner(ClipReader& clip, const std::filesystem::path& file,
                              PoseNetworks& networks, const std::vector<FrameNumber>& frames,
                              const std::optional<Box>& box, std::optional<View> view);

} // namespace latemile::batch
