// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/opened_file.hpp"

#include <cstdint>
#include <functional>
#include <vector>

namespace latemile {

/// What is kept of one packet of the video stream; times in ticks of the stream, AV_NOPTS_VALUE
/// where the file gives none.
struct PacketEntry {
    std::int64_t pts = AV_NOPTS_VALUE;
    std::int64_t dts = AV_NOPTS_VALUE;
    std::int64_t duration = 0;  ///< ticks, 0 where unknown
    std::int64_t position = -1; ///< byte in the file, -1 where unknown
    int size = 0;
    bool isKey = false;
    bool isShown = true; ///< not cut away by an edit list and not a hidden reference picture
    bool isWhole = true; ///< false: the file ends or breaks within it
};

/// The packets of the video stream in the order they stand in the file, which is the order of
/// decoding. The place of a packet in it is its ordinal.
struct PacketIndex {
    std::vector<PacketEntry> packets;
    bool endedEarly = false; ///< reading stopped at damage, not at the end of the file
    bool stopped = false;    ///< reading was stopped by whoever asked for it
};

/// Reads every packet once; decodes nothing. `goOn` as in ClipOptions.
[[nodiscard]] PacketIndex readPacketIndex(const OpenedFile& file,
                                          const std::function<bool(double)>& goOn = {});

} // namespace latemile
