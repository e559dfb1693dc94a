// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"
#include "core/clip/frame_pictures.hpp"
#include "core/clip/upright.hpp"

#include <optional>
#include <string>

namespace latemile {

/// How the stored pictures of this clip become upright.
[[nodiscard]] UprightShape uprightShapeOf(const FramePictures& pictures);

/// Whether its frames consist of two fields taken one after the other.
[[nodiscard]] bool isInterlaced(const FramePictures& pictures);

/// All facts that do not depend on time: container, codec, size, colour; and remarks on them.
[[nodiscard]] ClipFacts pictureFacts(const FramePictures& pictures, const UprightShape& shape);

/// "The clip ends after 41 of its 240 frames.", when the file holds fewer frames than its header
/// promises. `end`: seconds by the file's own clock, from its start to the end of the last frame.
[[nodiscard]] std::optional<std::string> endsEarly(const FramePictures& pictures, double rate,
                                                   double end);

} // namespace latemile
