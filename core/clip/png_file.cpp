// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/png_file.hpp"

#include "core/clip/libav_owners.hpp"

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <cstdint>
#include <span>
#include <string>
#include <system_error>

#include <fcntl.h>
#include <unistd.h>

namespace latemile {

namespace {

tl::unexpected<Error> cannotEncode(const std::filesystem::path& file)
{
    return fail(Error::Kind::Unsupported, "The picture cannot be written as \"" + file.string() +
                                              "\": there is not enough memory; close other "
                                              "programs.");
}

tl::unexpected<Error> cannotWrite(const std::filesystem::path& file, int code)
{
    const auto detail = std::generic_category().message(code);
    const std::string start = "The picture \"" + file.string() + "\" cannot be written: ";
    if (code == ENOSPC || code == EDQUOT || code == EFBIG) {
        return fail(Error::Kind::DiskFull, start + "the disk is full; make room and try again.",
                    detail);
    }
    if (code == ENOENT || code == ENOTDIR) {
        return fail(Error::Kind::NotFound, start + "its folder does not exist; make it first.",
                    detail);
    }
    if (code == EISDIR) {
        return fail(Error::Kind::Inconsistent,
                    start + "there is a folder of that name; choose "
                            "another name.",
                    detail);
    }
    return fail(Error::Kind::Unsupported, start + "choose a folder that you may write to.", detail);
}

AvFrame rgbFrame(const Picture& picture)
{
    AvFrame frame(av_frame_alloc());
    if (!frame) {
        return nullptr;
    }
    frame->format = AV_PIX_FMT_RGB24;
    frame->width = picture.width();
    frame->height = picture.height();
    if (av_frame_get_buffer(frame.get(), 0) < 0) {
        return nullptr;
    }
    for (int y = 0; y < picture.height(); ++y) {
        const auto* from = picture.row(y);
        auto* to = frame->data[0] + std::ptrdiff_t{y} * frame->linesize[0];
        for (int x = 0; x < picture.width(); ++x, from += 4, to += 3) {
            to[0] = from[2];
            to[1] = from[1];
            to[2] = from[0];
        }
    }
    return frame;
}

AvPacket encoded(const Picture& picture)
{
    const auto* codec = avcodec_find_encoder(AV_CODEC_ID_PNG);
    const auto frame = rgbFrame(picture);
    AvCodecContext context(codec ? avcodec_alloc_context3(codec) : nullptr);
    AvPacket packet(av_packet_alloc());
    if (!frame || !context || !packet) {
        return nullptr;
    }
    context->width = frame->width;
    context->height = frame->height;
    context->pix_fmt = AV_PIX_FMT_RGB24;
    context->time_base = {1, 1};
    context->thread_count = 1;
    const bool isMade = avcodec_open2(context.get(), codec, nullptr) == 0 &&
                        avcodec_send_frame(context.get(), frame.get()) == 0 &&
                        avcodec_send_frame(context.get(), nullptr) == 0 &&
                        avcodec_receive_packet(context.get(), packet.get()) == 0;
    return isMade ? std::move(packet) : nullptr;
}

/// 0, or the system's error code.
int writeAll(int descriptor, std::span<const std::uint8_t> bytes)
{
    while (!bytes.empty()) {
        const auto count = ::write(descriptor, bytes.data(), bytes.size());
        if (count < 0 && errno != EINTR) {
            return errno;
        }
        bytes = bytes.subspan(static_cast<std::size_t>(std::max<ssize_t>(count, 0)));
    }
    return ::fsync(descriptor) == 0 ? 0 : errno;
}

/// A name of our own beside the file, since renaming works within one file system only.
std::string halfName(const std::filesystem::path& file)
{
    static std::atomic<unsigned> count = 0;
    return file.string() + "." + std::to_string(::getpid()) + "-" + std::to_string(++count) +
           ".part";
}

} // namespace

Outcome<void> writePng(const Picture& picture, const std::filesystem::path& file)
{
    std::error_code ignored;
    if (std::filesystem::is_directory(file, ignored)) {
        return cannotWrite(file, EISDIR);
    }
    const auto packet = picture.isEmpty() ? nullptr : encoded(picture);
    if (!packet) {
        return cannotEncode(file);
    }
    const auto half = halfName(file);
    const int descriptor = ::open(half.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (descriptor < 0) {
        return cannotWrite(file, errno);
    }
    int code = writeAll(descriptor, {packet->data, static_cast<std::size_t>(packet->size)});
    code = ::close(descriptor) != 0 && code == 0 ? errno : code;
    if (code == 0 && ::rename(half.c_str(), file.c_str()) != 0) {
        code = errno;
    }
    if (code != 0) {
        ::unlink(half.c_str());
        return cannotWrite(file, code);
    }
    return {};
}

} // namespace latemile
