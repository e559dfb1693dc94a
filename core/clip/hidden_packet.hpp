// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/libav_owners.hpp"

namespace latemile {

/// Whether this packet holds nothing but a reference picture that is never shown: VP8 and early
/// VP9 writers put the "alternate reference" in a packet of its own. False for every other codec.
[[nodiscard]] bool isHiddenPacket(AVCodecID codec, const AVPacket& packet);

} // namespace latemile
