// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/libav_owners.hpp"

namespace latemile {

/// Whether a packet marked as key really begins with a picture that stands alone. Writers also mark
/// H.264 pictures from which a stream is refreshed bit by bit, and avi files the empty pictures of
/// packed MPEG-4; decoding that begins there is not exact. Other codecs: true.
[[nodiscard]] bool beginsWithWholePicture(const AVCodecParameters& coded, const AVPacket& packet);

} // namespace latemile
