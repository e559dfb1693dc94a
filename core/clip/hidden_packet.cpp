// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/hidden_packet.hpp"

namespace latemile {

namespace {

/// RFC 6386 section 9.1: bit 4 of the first byte is show_frame.
bool isHiddenVp8(const std::uint8_t* data)
{
    return (data[0] & 0x10) == 0;
}

/// VP9 bitstream specification 6.2 and annex B: a superframe ends in a marker byte 110xxxxx and
/// shows its last frame; else two bits marker, the profile, show_existing_frame, frame_type,
/// show_frame.
bool isHiddenVp9(const std::uint8_t* data, int size)
{
    if ((data[size - 1] & 0xe0) == 0xc0) {
        return false;
    }
    const bool profileHasReservedBit = (data[0] & 0x30) == 0x30;
    const unsigned bits = profileHasReservedBit ? unsigned{data[0]} << 1 : unsigned{data[0]};
    const bool showsExisting = (bits & 0x08) != 0;
    const bool shows = (bits & 0x02) != 0;
    return !showsExisting && !shows;
}

} // namespace

bool isHiddenPacket(AVCodecID codec, const AVPacket& packet)
{
    if (packet.size < 1) {
        return false;
    }
    if (codec == AV_CODEC_ID_VP8) {
        return isHiddenVp8(packet.data);
    }
    return codec == AV_CODEC_ID_VP9 && isHiddenVp9(packet.data, packet.size);
}

} // namespace latemile
