// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/decoder_words.hpp"

#include <cstdarg>
#include <mutex>
#include <string_view>

namespace latemile {

namespace {

/// Called on whichever thread the decoder works; each of its threads has a copy of the context
/// that carries the same `opaque`.
void listen(void* speaker, int level, const char* words, va_list /*values*/)
{
    if (!speaker || level > AV_LOG_INFO ||
        *static_cast<const AVClass* const*>(speaker) != avcodec_get_class()) {
        return;
    }
    auto* flag = static_cast<MadeUp*>(static_cast<AVCodecContext*>(speaker)->opaque);
    const std::string_view said(words);
    // The first is HEVC's, the second H.264's, whose frame threads hand copies of a picture on
    // before the flag that says the same is set on it.
    if (flag &&
        (said.starts_with("Could not find ref with POC") || said.starts_with("concealing "))) {
        flag->store(true);
    }
}

} // namespace

void listenToDecoders()
{
    static std::once_flag once;
    std::call_once(once, [] { av_log_set_callback(listen); });
}

void tellOf(AVCodecContext& decoder, MadeUp& flag)
{
    decoder.opaque = &flag;
}

} // namespace latemile
