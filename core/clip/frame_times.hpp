// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/packet_index.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace latemile {

/// When the frames of a clip are shown by the file's own clock, before any slow motion is taken
/// out.
struct FrameTimes {
    std::vector<double> seconds; ///< one a frame, the first 0, strictly rising
    double rate{};               ///< frames per second; where it varies, of the usual interval
    bool isVariable{};           ///< some interval differs from the usual one by a tenth or more
    double lastInterval{};       ///< seconds for which the last frame is shown
};

/// What a container says about its stream apart from the packets.
struct StatedTiming {
    double tick{};       ///< seconds
    double statedRate{}; ///< frames per second, 0 where not stated
};

/// `shown`: ordinals in order of presentation. Missing, repeated and backward stamps are repaired;
/// each kind of repair adds one sentence to `remarks`.
[[nodiscard]] FrameTimes frameTimes(const PacketIndex& index,
                                    const std::vector<std::int64_t>& shown,
                                    const StatedTiming& stated, std::vector<std::string>& remarks);

} // namespace latemile
