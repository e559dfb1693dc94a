// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/libav_owners.hpp"
#include "core/clip/worker/packing.hpp"
#include "core/clip/worker/room.hpp"

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>

namespace latemile {

/// A decoded picture on its way through the room: what is said of it. All that is needed to make
/// an upright picture of it, and nothing else of libav's frame.
struct SentPicture {
    std::int32_t format{}; ///< libav's number of the pixel format
    std::int32_t width{};
    std::int32_t height{};
    std::int32_t range{}; ///< libav's numbers of how colours are to be read
    std::int32_t primaries{};
    std::int32_t transfer{};
    std::int32_t matrix{};
    std::int32_t peak{};      ///< brightest light of the mastering display, cd/m2 times peakScale
    std::int32_t peakScale{}; ///< 0: the clip does not say

    void addTo(Packing& packing) const;
    [[nodiscard]] static SentPicture takenFrom(Unpacking& unpacking);
};

[[nodiscard]] SentPicture saidOf(const AVFrame& frame);

/// Bytes of room that such a picture takes; nothing when there can be no such picture: an unknown
/// or unsuitable format, no or too many pixels, numbers out of their range.
[[nodiscard]] std::optional<std::size_t> roomFor(const SentPicture& picture);

/// The worker's part. The room is large enough.
void put(const AVFrame& frame, const SentPicture& picture, const Room& room);

/// The program's part: a copy of its own, which no worker can change any more, with free bytes
/// behind each plane as libswscale needs them. Not thread-safe.
class PictureTaker {
public:
    /// Nothing when there can be no such picture in this room, or no memory for it.
    [[nodiscard]] SharedAvFrame take(const SentPicture& picture, const Room& room);

private:
    struct PoolFreed {
        void operator()(AVBufferPool* pool) const;
    };
    std::unique_ptr<AVBufferPool, PoolFreed> m_pool; // fresh pages cost as much as the copy
    std::size_t m_poolBytes = 0;
};

} // namespace latemile
