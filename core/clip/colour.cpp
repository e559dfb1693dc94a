// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/colour.hpp"

extern "C" {
#include <libavutil/pixdesc.h>
}

#include <algorithm>

namespace latemile {

namespace {

bool isFullRangeFormat(int format)
{
    return format == AV_PIX_FMT_YUVJ420P || format == AV_PIX_FMT_YUVJ422P ||
           format == AV_PIX_FMT_YUVJ444P || format == AV_PIX_FMT_YUVJ440P ||
           format == AV_PIX_FMT_YUVJ411P;
}

int matrixNamed(AVColorSpace space, bool& isAssumed, const AVFrame& frame)
{
    switch (space) {
    case AVCOL_SPC_BT709:
        return SWS_CS_ITU709;
    case AVCOL_SPC_FCC:
        return SWS_CS_FCC;
    case AVCOL_SPC_BT470BG:
    case AVCOL_SPC_SMPTE170M:
        return SWS_CS_ITU601;
    case AVCOL_SPC_SMPTE240M:
        return SWS_CS_SMPTE240M;
    case AVCOL_SPC_BT2020_NCL:
    case AVCOL_SPC_BT2020_CL:
        return SWS_CS_BT2020;
    default:
        isAssumed = true;
        return std::min(frame.width, frame.height) >= 720 ? SWS_CS_ITU709 : SWS_CS_ITU601;
    }
}

Colour::Transfer transferNamed(AVColorTransferCharacteristic transfer)
{
    if (transfer == AVCOL_TRC_SMPTE2084) {
        return Colour::Transfer::Pq;
    }
    return transfer == AVCOL_TRC_ARIB_STD_B67 ? Colour::Transfer::Hlg : Colour::Transfer::Standard;
}

std::string matrixInWords(const Colour& colour)
{
    switch (colour.matrix) {
    case SWS_CS_ITU709:
        return "BT.709";
    case SWS_CS_BT2020:
        return "BT.2020";
    case SWS_CS_FCC:
        return "FCC";
    case SWS_CS_SMPTE240M:
        return "SMPTE 240M";
    default:
        return "BT.601";
    }
}

} // namespace

Colour colourOf(const AVFrame& frame)
{
    Colour colour;
    const auto* description = av_pix_fmt_desc_get(static_cast<AVPixelFormat>(frame.format));
    colour.isRgb = description && (description->flags & AV_PIX_FMT_FLAG_RGB) != 0;
    colour.isFullRange =
        colour.isRgb || frame.color_range == AVCOL_RANGE_JPEG || isFullRangeFormat(frame.format);
    colour.transfer = transferNamed(frame.color_trc);
    const bool saysNoPrimaries = frame.color_primaries == AVCOL_PRI_UNSPECIFIED;
    colour.isWideGamut = frame.color_primaries == AVCOL_PRI_BT2020 ||
                         (colour.isHighDynamicRange() && saysNoPrimaries);
    auto space = frame.colorspace;
    if (space == AVCOL_SPC_UNSPECIFIED && colour.isHighDynamicRange()) {
        space = AVCOL_SPC_BT2020_NCL;
    }
    colour.matrix = matrixNamed(space, colour.isAssumed, frame);
    return colour;
}

std::string inWords(const Colour& colour)
{
    if (colour.isRgb) {
        return "RGB";
    }
    std::string words = matrixInWords(colour);
    words += colour.isAssumed ? " (assumed)" : "";
    words += colour.isFullRange ? ", full range" : ", limited range";
    if (colour.transfer == Colour::Transfer::Pq) {
        words += ", high dynamic range (PQ)";
    }
    if (colour.transfer == Colour::Transfer::Hlg) {
        words += ", high dynamic range (HLG)";
    }
    return words;
}

} // namespace latemile
