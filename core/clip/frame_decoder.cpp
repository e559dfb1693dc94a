// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/frame_decoder.hpp"

#include "core/clip/undecoded.hpp"

#include <algorithm>
#include <thread>

namespace latemile {

namespace {

/// These decoders patch what is damaged and say so on the frame; of the others we must ask to be
/// told of every fault, since they leave out what they cannot read and say nothing.
bool flagsItsPatches(const OpenedFile& file)
{
    const auto codec = file.stream()->codecpar->codec_id;
    return codec == AV_CODEC_ID_MPEG4 || codec == AV_CODEC_ID_MPEG2VIDEO ||
           codec == AV_CODEC_ID_MPEG1VIDEO || codec == AV_CODEC_ID_H263;
}

/// This decoder ends a damaged picture early and says nothing.
bool leavesHoles(const OpenedFile& file)
{
    return file.stream()->codecpar->codec_id == AV_CODEC_ID_HEVC;
}

/// A decoder that patches frames in several threads hands on copies of a frame before the one that
/// patches it has flagged it: whether damage shows would hang on timing. These codecs are light
/// enough for one.
int threadsFor(const OpenedFile& file)
{
    return flagsItsPatches(file)
               ? 1
               : static_cast<int>(std::clamp(std::thread::hardware_concurrency(), 1U, 8U));
}

std::string codecName(const OpenedFile& file)
{
    return avcodec_get_name(file.stream()->codecpar->codec_id);
}

} // namespace

FrameDecoder::FrameDecoder(PacketReader packets)
    : m_packets(std::move(packets)), m_madeUp(std::make_unique<MadeUp>()),
      m_packet(av_packet_alloc())
{
}

Outcome<FrameDecoder> FrameDecoder::open(PacketReader packets, int reorderDepth)
{
    const auto faults = flagsItsPatches(packets.file()) ? 0 : AV_EF_EXPLODE;
    FrameDecoder decoder(std::move(packets));
    RETURN_IF_ERROR(decoder.openContext(reorderDepth, faults));
    return decoder;
}

Outcome<void> FrameDecoder::openContext(int reorderDepth, int faultsSeen)
{
    const auto& file = this->file();
    const auto& coded = *file.stream()->codecpar;
    const auto* codec = avcodec_find_decoder(coded.codec_id);
    if (!codec) {
        return fail(Error::Kind::Unsupported, "The pictures of " + file.name() + " are coded as " +
                                                  codecName(file) +
                                                  ", which cannot be decoded here; export the "
                                                  "clip as H.264.");
    }
    if (std::int64_t{coded.width} * coded.height > largestPicture) {
        return fail(Error::Kind::Unsupported,
                    "The pictures of " + file.name() + " are " + std::to_string(coded.width) +
                        " x " + std::to_string(coded.height) +
                        " pixels, more than can be shown; export the clip at a smaller size.");
    }
    AvCodecContext context(avcodec_alloc_context3(codec));
    if (!context || avcodec_parameters_to_context(context.get(), &coded) < 0) {
        return fail(Error::Kind::Unsupported, "There is not enough memory; close other programs.");
    }
    context->thread_count = threadsFor(file);
    context->max_pixels = largestPicture;
    context->err_recognition = faultsSeen;
    // A stream that does not state how far its frames are reordered makes the decoder guess and
    // drop frames while it learns. The packets told us.
    context->has_b_frames = std::max(context->has_b_frames, reorderDepth);
    tellOf(*context, *m_madeUp);
    if (leavesHoles(file)) {
        context->get_buffer2 = patternedBuffer;
    }
    const int code = avcodec_open2(context.get(), codec, nullptr);
    if (code < 0) {
        return fail(Error::Kind::Damaged,
                    "The pictures of " + file.name() +
                        " cannot be decoded; copy the clip again from the camera or phone.",
                    libavWords(code));
    }
    m_context = std::move(context);
    return {};
}

Outcome<void> FrameDecoder::tolerateFaults()
{
    return openContext(m_context->has_b_frames, 0);
}

Outcome<void> FrameDecoder::startAt(std::int64_t ordinal)
{
    avcodec_flush_buffers(m_context.get());
    m_isDraining = false;
    m_damage.reset();
    m_madeUp->store(false);
    return m_packets.goTo(ordinal);
}

/// With several threads the decoder answers some packets late, so an answer tells of one of the
/// last few packets.
void FrameDecoder::noteDamage()
{
    const auto last = m_packets.nextOrdinal() - 1;
    const auto first = std::max<std::int64_t>(0, last - (m_context->thread_count - 1));
    m_damage = Span{m_damage ? std::min(m_damage->first, first) : first, last};
}

std::optional<FrameDecoder::Span> FrameDecoder::takeDamage()
{
    if (m_madeUp->exchange(false)) {
        noteDamage();
    }
    return std::exchange(m_damage, std::nullopt);
}

Outcome<void> FrameDecoder::sendNext()
{
    const auto ordinal = m_packets.nextOrdinal();
    ASSIGN_OR_RETURN(const bool isThere, m_packets.next(*m_packet));
    if (!isThere) {
        m_isDraining = true;
        avcodec_send_packet(m_context.get(), nullptr);
        return {};
    }
    m_packet->pts = ordinal;
    m_packet->dts = AV_NOPTS_VALUE;
    // Whether a frame is shown is ours to decide: some decoders lose this flag on the way.
    m_packet->flags &= ~AV_PKT_FLAG_DISCARD;
    const int code = avcodec_send_packet(m_context.get(), m_packet.get());
    av_packet_unref(m_packet.get());
    if (code < 0) {
        noteDamage();
    }
    return {};
}

Outcome<DecodedFrame> FrameDecoder::next()
{
    AvFrame frame(av_frame_alloc());
    for (int answersWithoutPacket = 0; answersWithoutPacket < 1000;) {
        const int code = avcodec_receive_frame(m_context.get(), frame.get());
        if (code == 0) {
            const auto ordinal = frame->pts;
            if (ordinal < 0 || ordinal >= static_cast<std::int64_t>(index().packets.size())) {
                av_frame_unref(frame.get());
                continue;
            }
            const bool isDamaged = frame->decode_error_flags != 0 ||
                                   (frame->flags & AV_FRAME_FLAG_CORRUPT) != 0 ||
                                   (leavesHoles(file()) && hasHoles(*frame));
            return DecodedFrame{ordinal, std::move(frame), isDamaged};
        }
        if (code == AVERROR_EOF) {
            return DecodedFrame{};
        }
        if (code == AVERROR(EAGAIN)) {
            RETURN_IF_ERROR(sendNext());
            answersWithoutPacket = 0;
        } else {
            noteDamage();
            ++answersWithoutPacket;
        }
    }
    return DecodedFrame{};
}

} // namespace latemile
