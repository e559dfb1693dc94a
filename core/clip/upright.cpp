// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/upright.hpp"

#include "core/clip/tone_table.hpp"

extern "C" {
#include <libavutil/buffer.h>
#include <libavutil/mastering_display_metadata.h>
#include <libavutil/pixdesc.h>
}

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <mutex>
#include <optional>
#include <vector>

namespace latemile {

namespace {

constexpr std::size_t rowAlignment = 64;

struct PoolFreed {
    void operator()(AVBufferPool* pool) const { av_buffer_pool_uninit(&pool); }
};

int stretched(int length, double by)
{
    return std::max(1, static_cast<int>(std::lround(length * std::max(by, 1.0))));
}

std::size_t rowBytes(int width)
{
    const auto bytes = static_cast<std::size_t>(width) * 4;
    return (bytes + rowAlignment - 1) / rowAlignment * rowAlignment;
}

/// What a scaler was made for; another needs another scaler.
struct ScalerKey {
    int width;
    int height;
    int format;
    Colour colour;
    double peak;
    bool operator==(const ScalerKey&) const = default;
};

/// The brightest light that the clip was mastered for; 1000 cd/m2 where it does not say.
double peakOf(const AVFrame& frame)
{
    constexpr double usual = 1000;
    const auto* side = av_frame_get_side_data(&frame, AV_FRAME_DATA_MASTERING_DISPLAY_METADATA);
    if (!side) {
        return usual;
    }
    const auto& mastering = *reinterpret_cast<const AVMasteringDisplayMetadata*>(side->data);
    const double peak = mastering.has_luminance ? av_q2d(mastering.max_luminance) : usual;
    return peak >= 250 && peak <= 10000 ? peak : usual;
}

/// A scaler for one kind of frame, and the scratch rows it needs; used by one thread at a time.
struct Converter {
    ScalerKey key;
    AvScaler scaler;
    std::optional<ToneTable> tones;
    std::vector<std::uint16_t> deep; // R, G, B of 16 bits, for the tone table
};

bool isPlain8Bit420(int format)
{
    return format == AV_PIX_FMT_YUV420P || format == AV_PIX_FMT_YUVJ420P;
}

/// libswscale has a fast way for 4:2:0 of the same size that is right to two levels; every other
/// way is asked for its best.
int scalerFlags(const ScalerKey& key, const UprightShape& shape)
{
    const bool sameSize = key.width == shape.squareWidth() && key.height == shape.squareHeight();
    if (sameSize && isPlain8Bit420(key.format) && key.height % 2 == 0 && key.width % 2 == 0) {
        return SWS_BICUBIC;
    }
    return SWS_BICUBIC | SWS_ACCURATE_RND | SWS_FULL_CHR_H_INT | SWS_FULL_CHR_H_INP;
}

/// The "J" formats are their plain counterparts in full range, which the colour says already.
AVPixelFormat withoutJ(int format)
{
    switch (format) {
    case AV_PIX_FMT_YUVJ420P:
        return AV_PIX_FMT_YUV420P;
    case AV_PIX_FMT_YUVJ422P:
        return AV_PIX_FMT_YUV422P;
    case AV_PIX_FMT_YUVJ444P:
        return AV_PIX_FMT_YUV444P;
    case AV_PIX_FMT_YUVJ440P:
        return AV_PIX_FMT_YUV440P;
    default:
        return static_cast<AVPixelFormat>(format);
    }
}

std::unique_ptr<Converter> converterFor(const ScalerKey& key, const UprightShape& shape)
{
    const bool isHdr = key.colour.isHighDynamicRange();
    auto converter = std::make_unique<Converter>();
    converter->key = key;
    converter->scaler.reset(sws_getContext(key.width, key.height, withoutJ(key.format),
                                           shape.squareWidth(), shape.squareHeight(),
                                           isHdr ? AV_PIX_FMT_RGB48 : AV_PIX_FMT_BGRA,
                                           scalerFlags(key, shape), nullptr, nullptr, nullptr));
    if (!converter->scaler) {
        return nullptr;
    }
    const int* coefficients = sws_getCoefficients(key.colour.matrix);
    constexpr int one = 1 << 16;
    sws_setColorspaceDetails(converter->scaler.get(), coefficients, key.colour.isFullRange,
                             coefficients, 1, 0, one, one);
    if (isHdr) {
        converter->tones.emplace(key.colour.transfer, key.colour.isWideGamut, key.peak);
        converter->deep.resize(static_cast<std::size_t>(shape.squareWidth() + 16) *
                               static_cast<std::size_t>(shape.squareHeight()) * 3);
    }
    return converter;
}

cv::Mat oriented(const cv::Mat& square, const Orientation& orientation)
{
    cv::Mat picture = square;
    if (orientation.isMirrored) {
        cv::Mat mirrored;
        cv::flip(picture, mirrored, 1);
        picture = mirrored;
    }
    if (orientation.clockwiseDegrees != 0) {
        cv::Mat turned;
        cv::rotate(picture, turned,
                   orientation.clockwiseDegrees == 90    ? cv::ROTATE_90_CLOCKWISE
                   : orientation.clockwiseDegrees == 180 ? cv::ROTATE_180
                                                         : cv::ROTATE_90_COUNTERCLOCKWISE);
        picture = turned;
    }
    return picture;
}

/// Whether the first plane holds one byte of luma a pixel.
bool hasPlainLuma(const AVFrame& frame)
{
    const auto* description = av_pix_fmt_desc_get(static_cast<AVPixelFormat>(frame.format));
    constexpr std::uint64_t others =
        AV_PIX_FMT_FLAG_RGB | AV_PIX_FMT_FLAG_PAL | AV_PIX_FMT_FLAG_HWACCEL;
    return description && (description->flags & others) == 0 && description->comp[0].plane == 0 &&
           description->comp[0].depth == 8 && description->comp[0].step == 1 &&
           description->comp[0].offset == 0;
}

ShadesView viewOf(const cv::Mat& grey)
{
    return {grey.cols, grey.rows, grey.data, static_cast<std::ptrdiff_t>(grey.step)};
}

Shades copyOf(const ShadesView& view)
{
    Shades shades{view.width, view.height, {}};
    shades.values.reserve(static_cast<std::size_t>(view.width) *
                          static_cast<std::size_t>(view.height));
    for (int y = 0; y < view.height; ++y) {
        const auto* row = view.pixels + y * view.bytesPerRow;
        shades.values.insert(shades.values.end(), row, row + view.width);
    }
    return shades;
}

} // namespace

int UprightShape::squareWidth() const
{
    return stretched(storedWidth, pixelAspect);
}

int UprightShape::squareHeight() const
{
    return stretched(storedHeight, 1 / pixelAspect);
}

struct UprightMaker::Inside {
    UprightShape shape;
    /// Eight megabytes fresh from the system for each picture would cost as much as decoding it.
    std::unique_ptr<AVBufferPool, PoolFreed> pool;
    std::mutex mutex;
    std::vector<std::unique_ptr<Converter>> idle; // guarded by mutex

    explicit Inside(const UprightShape& upright)
        : shape(upright),
          pool(av_buffer_pool_init(
              rowBytes(std::max(shape.squareWidth(), shape.width())) *
                      static_cast<std::size_t>(std::max(shape.squareHeight(), shape.height())) +
                  rowAlignment,
              nullptr))
    {
    }
    std::unique_ptr<Converter> borrow(const ScalerKey& key);
    Picture emptyPicture(int width, int height) const;
    void convert(Converter& converter, const AVFrame& frame, std::uint8_t* pixels) const;
};

std::unique_ptr<Converter> UprightMaker::Inside::borrow(const ScalerKey& key)
{
    {
        const std::lock_guard lock(mutex);
        const auto fits = [&](const auto& converter) { return converter->key == key; };
        const auto found = std::find_if(idle.begin(), idle.end(), fits);
        if (found != idle.end()) {
            auto converter = std::move(*found);
            idle.erase(found);
            return converter;
        }
    }
    return converterFor(key, shape);
}

Picture UprightMaker::Inside::emptyPicture(int width, int height) const
{
    auto* buffer = av_buffer_pool_get(pool.get());
    if (!buffer) {
        return {};
    }
    const std::shared_ptr<const std::uint8_t> pixels(buffer->data, [buffer](const auto*) {
        auto* freed = buffer;
        av_buffer_unref(&freed);
    });
    return {width, height, rowBytes(width), pixels};
}

void UprightMaker::Inside::convert(Converter& converter, const AVFrame& frame,
                                   std::uint8_t* pixels) const
{
    const int width = shape.squareWidth();
    const int height = shape.squareHeight();
    const auto stride = rowBytes(width);
    if (!converter.tones) {
        std::uint8_t* const planes[4] = {pixels};
        const int strides[4] = {static_cast<int>(stride)};
        sws_scale(converter.scaler.get(), frame.data, frame.linesize, 0, frame.height, planes,
                  strides);
        return;
    }
    const int deepStride = (width + 16) * 3 * 2;
    std::uint8_t* const planes[4] = {reinterpret_cast<std::uint8_t*>(converter.deep.data())};
    const int strides[4] = {deepStride};
    sws_scale(converter.scaler.get(), frame.data, frame.linesize, 0, frame.height, planes, strides);
    cv::parallel_for_(cv::Range(0, height), [&](const cv::Range& rows) {
        for (int y = rows.start; y < rows.end; ++y) {
            converter.tones->convertRow(converter.deep.data() + std::ptrdiff_t{y} * deepStride / 2,
                                        pixels + static_cast<std::size_t>(y) * stride, width);
        }
    });
}

UprightMaker::UprightMaker(const UprightShape& shape) : m_inside(std::make_unique<Inside>(shape)) {}
UprightMaker::UprightMaker(UprightMaker&&) noexcept = default;
UprightMaker& UprightMaker::operator=(UprightMaker&&) noexcept = default;
UprightMaker::~UprightMaker() = default;

Outcome<Picture> UprightMaker::make(const AVFrame& frame) const
{
    const auto& shape = m_inside->shape;
    const Colour colour = colourOf(frame);
    const ScalerKey key{frame.width, frame.height, frame.format, colour,
                        colour.isHighDynamicRange() ? peakOf(frame) : 0};
    auto converter = m_inside->borrow(key);
    Picture square = m_inside->emptyPicture(shape.squareWidth(), shape.squareHeight());
    if (!converter || square.isEmpty()) {
        return fail(Error::Kind::Unsupported,
                    "A picture of this kind cannot be shown here; export the clip as H.264.",
                    av_get_pix_fmt_name(static_cast<AVPixelFormat>(frame.format)));
    }
    // The picture is ours alone until it is handed out.
    auto* pixels = const_cast<std::uint8_t*>(square.row(0));
    m_inside->convert(*converter, frame, pixels);
    const auto* description = av_pix_fmt_desc_get(static_cast<AVPixelFormat>(frame.format));
    cv::Mat view(square.height(), square.width(), CV_8UC4, pixels, square.bytesPerRow());
    if (description && (description->flags & AV_PIX_FMT_FLAG_ALPHA)) {
        cv::bitwise_or(view, cv::Scalar(0, 0, 0, 255), view);
    }
    {
        const std::lock_guard lock(m_inside->mutex);
        m_inside->idle.push_back(std::move(converter));
    }
    if (shape.orientation == Orientation{}) {
        return square;
    }
    Picture upright = m_inside->emptyPicture(shape.width(), shape.height());
    if (upright.isEmpty()) {
        return fail(Error::Kind::Unsupported, "There is not enough memory; close other programs.");
    }
    cv::Mat target(upright.height(), upright.width(), CV_8UC4,
                   const_cast<std::uint8_t*>(upright.row(0)), upright.bytesPerRow());
    oriented(view, shape.orientation).copyTo(target);
    return upright;
}

Outcome<Shades> UprightMaker::shades(const AVFrame& frame) const
{
    Shades shades;
    RETURN_IF_ERROR(lookAtShades(frame, [&](const ShadesView& view) { shades = copyOf(view); }));
    return shades;
}

Outcome<void> UprightMaker::lookAtShades(const AVFrame& frame,
                                         const std::function<void(const ShadesView&)>& look) const
{
    const auto& shape = m_inside->shape;
    const bool isSquare =
        frame.width == shape.squareWidth() && frame.height == shape.squareHeight() &&
        frame.linesize[0] > 0; // a picture stored upside down has its rows backwards
    if (isSquare && hasPlainLuma(frame)) {
        const cv::Mat luma(frame.height, frame.width, CV_8UC1, frame.data[0],
                           static_cast<std::size_t>(frame.linesize[0]));
        look(viewOf(oriented(luma, shape.orientation)));
        return {};
    }
    ASSIGN_OR_RETURN(const auto picture, make(frame));
    const cv::Mat colours(picture.height(), picture.width(), CV_8UC4,
                          const_cast<std::uint8_t*>(picture.row(0)), picture.bytesPerRow());
    cv::Mat grey;
    cv::cvtColor(colours, grey, cv::COLOR_BGRA2GRAY);
    look(viewOf(grey));
    return {};
}

} // namespace latemile
