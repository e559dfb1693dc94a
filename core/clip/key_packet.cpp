// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/key_packet.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <span>

namespace latemile {

namespace {

using Bytes = std::span<const std::uint8_t>;

/// What follows the next start code 00 00 01; empty when there is none.
Bytes afterStartCode(Bytes bytes)
{
    constexpr std::array<std::uint8_t, 3> code{0, 0, 1};
    const auto found = std::search(bytes.begin(), bytes.end(), code.begin(), code.end());
    return found == bytes.end()
               ? Bytes{}
               : bytes.subspan(static_cast<std::size_t>(found - bytes.begin()) + code.size());
}

/// ISO/IEC 14496-2, 6.2.5: start code B6, then two bits vop_coding_type, 0 for a picture of its
/// own. The empty picture of packed streams carries the type of the one before it.
bool beginsWithIntraVop(Bytes bytes)
{
    constexpr std::size_t emptyPicture = 16; // bytes; a whole one does not fit in so few
    for (auto rest = afterStartCode(bytes); rest.size() > 1; rest = afterStartCode(rest)) {
        if (rest[0] == 0xb6) {
            return rest[1] >> 6 == 0 && rest.size() > emptyPicture;
        }
    }
    return false;
}

/// An unsigned number in Exp-Golomb code (ISO/IEC 14496-10, 9.1); moves `bit` behind it.
unsigned expGolomb(Bytes bytes, std::size_t& bit)
{
    const auto take = [&]() -> unsigned {
        const auto byte = bit / 8;
        const unsigned value = byte < bytes.size() ? bytes[byte] >> (7 - bit % 8) & 1U : 1U;
        ++bit;
        return value;
    };
    int zeros = 0;
    while (take() == 0 && zeros < 31) {
        ++zeros;
    }
    unsigned value = 1;
    for (int i = 0; i < zeros; ++i) {
        value = value << 1 | take();
    }
    return value - 1;
}

/// Nothing for a unit that is no slice; else whether it is one of a picture that stands alone:
/// 7.3.3, first_mb_in_slice, then slice_type 2, 4, 7, 9 for I and SI.
std::optional<bool> isWholeSlice(Bytes unit)
{
    const int kind = unit.empty() ? 0 : unit[0] & 0x1f;
    if (kind == 5) {
        return true;
    }
    if (kind != 1 && kind != 2) {
        return std::nullopt;
    }
    std::size_t bit = 8;
    expGolomb(unit, bit);
    const auto type = expGolomb(unit, bit) % 5;
    return type == 2 || type == 4;
}

bool beginsWithIntraSlice(Bytes bytes, std::size_t lengthBytes)
{
    while (bytes.size() > lengthBytes) {
        std::size_t length = bytes.size();
        if (lengthBytes == 0) {
            bytes = afterStartCode(bytes);
        } else {
            length = 0;
            for (std::size_t i = 0; i < lengthBytes; ++i) {
                length = length << 8 | bytes[i];
            }
            bytes = bytes.subspan(lengthBytes);
        }
        if (const auto whole = isWholeSlice(bytes)) {
            return *whole;
        }
        bytes = lengthBytes == 0 ? bytes : bytes.subspan(std::min(length, bytes.size()));
    }
    return false;
}

} // namespace

bool beginsWithWholePicture(const AVCodecParameters& coded, const AVPacket& packet)
{
    const Bytes bytes(packet.data, static_cast<std::size_t>(std::max(packet.size, 0)));
    if (coded.codec_id == AV_CODEC_ID_MPEG4) {
        return beginsWithIntraVop(bytes);
    }
    if (coded.codec_id == AV_CODEC_ID_H264) {
        // ISO/IEC 14496-15: a configuration record begins with 1 and gives the size of lengths.
        const bool hasLengths = coded.extradata_size > 4 && coded.extradata[0] == 1;
        return beginsWithIntraSlice(bytes, hasLengths ? (coded.extradata[4] & 3U) + 1U : 0U);
    }
    return true;
}

} // namespace latemile
