// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/undecoded.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstring>

namespace latemile {

namespace {

/// The least block that a decoder leaves out, pixels.
constexpr int block = 16;
/// Bytes of a block that are looked at, away from its edges, which filters of its neighbours touch.
constexpr std::array looks{4, 9};
constexpr std::size_t lookedAt = 4;

/// Bytes without rhyme, the same at every multiple of the pattern's length in memory.
const std::array<std::uint8_t, 4096>& pattern()
{
    static const auto made = [] {
        std::array<std::uint8_t, 4096> bytes{};
        std::uint32_t state = 2463534242U; // xorshift, Marsaglia (2003)
        for (auto& byte : bytes) {
            state ^= state << 13U;
            state ^= state >> 17U;
            state ^= state << 5U;
            byte = static_cast<std::uint8_t>(state >> 24U);
        }
        return bytes;
    }();
    return made;
}

void fill(std::uint8_t* memory, std::size_t size)
{
    const auto& bytes = pattern();
    for (std::size_t at = 0; at < size; at += bytes.size()) {
        std::memcpy(memory + at, bytes.data(), std::min(bytes.size(), size - at));
    }
}

bool isPattern(const std::uint8_t* pixels, std::size_t offset)
{
    const auto& bytes = pattern();
    for (std::size_t i = 0; i < lookedAt; ++i) {
        if (pixels[i] != bytes[(offset + i) % bytes.size()]) {
            return false;
        }
    }
    return true;
}

} // namespace

int patternedBuffer(AVCodecContext* decoder, AVFrame* frame, int flags)
{
    const int code = avcodec_default_get_buffer2(decoder, frame, flags);
    if (code == 0 && frame->buf[0]) {
        fill(frame->buf[0]->data, static_cast<std::size_t>(frame->buf[0]->size));
    }
    return code;
}

bool hasHoles(const AVFrame& frame)
{
    if (!frame.buf[0] || frame.linesize[0] <= 0) {
        return false;
    }
    const auto* start = frame.buf[0]->data;
    for (int y = 0; y + block <= frame.height; y += block) {
        for (int x = 0; x + block <= frame.width; x += block) {
            const bool isHole = std::all_of(looks.begin(), looks.end(), [&](int look) {
                const auto* pixels = frame.data[0] +
                                     static_cast<std::ptrdiff_t>(y + look) * frame.linesize[0] + x +
                                     look;
                return isPattern(pixels, static_cast<std::size_t>(pixels - start));
            });
            if (isHole) {
                return true;
            }
        }
    }
    return false;
}

} // namespace latemile
