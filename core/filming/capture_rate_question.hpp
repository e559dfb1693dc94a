// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"

#include <string>

namespace latemile {

/// Could the file be slow motion that does not say so? Phones and cameras store what they took at
/// 120 or 240 frames a second as 24, 25, 30, 50 or 60. False where the file gives a capture rate,
/// where one was stated, and where more than 61 frames a second are stored.
[[nodiscard]] bool mayBeSlowMotion(const ClipFacts& facts);

/// The camera and its setting as far as a file gives them away: make and model where a phone writes
/// them, and always codec, picture size and stored rate. Two clips of one camera at one setting
/// have the same; what was answered for one is likely right for the other.
[[nodiscard]] std::string cameraSignature(const ClipFacts& facts);

} // namespace latemile
