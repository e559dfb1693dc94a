// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/libav_owners.hpp"

namespace latemile {

/// A `get_buffer2` that fills a picture's memory with a pattern before it is decoded into. What a
/// damaged slice leaves undecoded would else show, and lend to later pictures, whatever lay there.
int patternedBuffer(AVCodecContext* decoder, AVFrame* frame, int flags);

/// Whether the pattern still stands somewhere in the picture's first plane: a block of it was never
/// decoded. That real pixels equal the pattern by chance happens once in 2^64 blocks.
[[nodiscard]] bool hasHoles(const AVFrame& frame);

} // namespace latemile
