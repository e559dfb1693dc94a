// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/worker/sent_picture.hpp"

#include "core/clip/opened_file.hpp"

extern "C" {
#include <libavutil/buffer.h>
#include <libavutil/imgutils.h>
#include <libavutil/mastering_display_metadata.h>
#include <libavutil/pixdesc.h>
}

#include <algorithm>
#include <array>
#include <cstring>

namespace latemile {

namespace {

constexpr int rowAlignment = 64;
/// Rows and bytes that libswscale may read beyond a plane's end.
constexpr int heightAlignment = 32;
constexpr std::size_t planePadding = 64;

struct Layout {
    std::array<int, 4> strides{};
    std::array<std::size_t, 4> offsets{};
    std::size_t bytes = 0;
};

int aligned(int number, int to)
{
    return (number + to - 1) / to * to;
}

AVPixelFormat formatOf(const SentPicture& picture)
{
    return static_cast<AVPixelFormat>(picture.format);
}

/// Both ends reckon it themselves from the same numbers.
std::optional<Layout> layoutOf(const SentPicture& picture)
{
    const int height = aligned(picture.height, heightAlignment);
    Layout layout;
    if (av_image_fill_linesizes(layout.strides.data(), formatOf(picture), picture.width) < 0) {
        return std::nullopt;
    }
    std::array<std::ptrdiff_t, 4> strides{};
    for (std::size_t plane = 0; plane < strides.size(); ++plane) {
        layout.strides[plane] = aligned(layout.strides[plane], rowAlignment);
        strides[plane] = layout.strides[plane];
    }
    std::array<std::size_t, 4> sizes{};
    if (av_image_fill_plane_sizes(sizes.data(), formatOf(picture), height, strides.data()) < 0) {
        return std::nullopt;
    }
    for (std::size_t plane = 0; plane < sizes.size() && sizes[plane] > 0; ++plane) {
        layout.offsets[plane] = layout.bytes;
        layout.bytes +=
            (sizes[plane] + planePadding + rowAlignment - 1) / rowAlignment * rowAlignment;
    }
    return layout;
}

bool isNameOfColour(std::int32_t number)
{
    return number >= 0 && number < 256;
}

bool canBe(const SentPicture& picture)
{
    const auto* description = av_pix_fmt_desc_get(formatOf(picture));
    const bool hasFormat = description && picture.format >= 0 &&
                           (description->flags & AV_PIX_FMT_FLAG_HWACCEL) == 0 &&
                           sws_isSupportedInput(formatOf(picture)) != 0;
    const bool hasSize =
        picture.width > 0 && picture.height > 0 &&
        std::int64_t{picture.width} * picture.height <= largestPicture &&
        av_image_check_size(static_cast<unsigned>(picture.width),
                            static_cast<unsigned>(picture.height), 0, nullptr) >= 0;
    return hasFormat && hasSize && isNameOfColour(picture.range) &&
           isNameOfColour(picture.primaries) && isNameOfColour(picture.transfer) &&
           isNameOfColour(picture.matrix) && picture.peak >= 0 && picture.peakScale >= 0;
}

std::array<std::uint8_t*, 4> planesIn(std::uint8_t* memory, const Layout& layout)
{
    std::array<std::uint8_t*, 4> planes{};
    for (std::size_t plane = 0; plane < planes.size(); ++plane) {
        const bool isThere = plane == 0 || layout.offsets[plane] > 0;
        planes[plane] = isThere ? memory + layout.offsets[plane] : nullptr;
    }
    return planes;
}

bool setPeak(AVFrame& frame, const SentPicture& picture)
{
    if (picture.peakScale == 0) {
        return true;
    }
    auto* mastering = av_mastering_display_metadata_create_side_data(&frame);
    if (mastering) {
        mastering->has_luminance = 1;
        mastering->max_luminance = {picture.peak, picture.peakScale};
    }
    return mastering != nullptr;
}

} // namespace

void SentPicture::addTo(Packing& packing) const
{
    for (const auto number :
         {format, width, height, range, primaries, transfer, matrix, peak, peakScale}) {
        packing.add(number);
    }
}

SentPicture SentPicture::takenFrom(Unpacking& unpacking)
{
    SentPicture picture;
    for (auto* number :
         {&picture.format, &picture.width, &picture.height, &picture.range, &picture.primaries,
          &picture.transfer, &picture.matrix, &picture.peak, &picture.peakScale}) {
        *number = unpacking.take<std::int32_t>();
    }
    return picture;
}

SentPicture saidOf(const AVFrame& frame)
{
    SentPicture picture{.format = frame.format,
                        .width = frame.width,
                        .height = frame.height,
                        .range = static_cast<std::int32_t>(frame.color_range),
                        .primaries = static_cast<std::int32_t>(frame.color_primaries),
                        .transfer = static_cast<std::int32_t>(frame.color_trc),
                        .matrix = static_cast<std::int32_t>(frame.colorspace)};
    const auto* side = av_frame_get_side_data(&frame, AV_FRAME_DATA_MASTERING_DISPLAY_METADATA);
    if (side) {
        const auto& mastering = *reinterpret_cast<const AVMasteringDisplayMetadata*>(side->data);
        const auto peak = mastering.max_luminance;
        if (mastering.has_luminance && peak.num >= 0 && peak.den > 0) {
            picture.peak = peak.num;
            picture.peakScale = peak.den;
        }
    }
    return picture;
}

std::optional<std::size_t> roomFor(const SentPicture& picture)
{
    const auto layout = canBe(picture) ? layoutOf(picture) : std::nullopt;
    return layout ? std::optional(layout->bytes) : std::nullopt;
}

void put(const AVFrame& frame, const SentPicture& picture, const Room& room)
{
    auto layout = layoutOf(picture);
    auto planes = planesIn(room.memory(), *layout);
    std::array<const std::uint8_t*, 4> from{};
    std::copy_n(frame.data, from.size(), from.begin());
    av_image_copy(planes.data(), layout->strides.data(), from.data(), frame.linesize,
                  formatOf(picture), picture.width, picture.height);
}

void PictureTaker::PoolFreed::operator()(AVBufferPool* pool) const
{
    av_buffer_pool_uninit(&pool); // goes with the last picture of it
}

SharedAvFrame PictureTaker::take(const SentPicture& picture, const Room& room)
{
    const auto layout = canBe(picture) ? layoutOf(picture) : std::nullopt;
    AvFrame frame(av_frame_alloc());
    if (!layout || layout->bytes > room.size() || !frame) {
        return nullptr;
    }
    if (m_poolBytes != layout->bytes) {
        m_pool.reset(av_buffer_pool_init(layout->bytes, nullptr));
        m_poolBytes = layout->bytes;
    }
    frame->buf[0] = m_pool ? av_buffer_pool_get(m_pool.get()) : nullptr;
    if (!frame->buf[0] || !setPeak(*frame, picture)) {
        return nullptr;
    }
    std::memcpy(frame->buf[0]->data, room.memory(), layout->bytes);
    const auto planes = planesIn(frame->buf[0]->data, *layout);
    std::copy(planes.begin(), planes.end(), frame->data);
    std::copy(layout->strides.begin(), layout->strides.end(), frame->linesize);
    frame->format = picture.format;
    frame->width = picture.width;
    frame->height = picture.height;
    frame->color_range = static_cast<AVColorRange>(picture.range);
    frame->color_primaries = static_cast<AVColorPrimaries>(picture.primaries);
    frame->color_trc = static_cast<AVColorTransferCharacteristic>(picture.transfer);
    frame->colorspace = static_cast<AVColorSpace>(picture.matrix);
    return shared(std::move(frame));
}

} // namespace latemile
