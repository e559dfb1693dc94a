// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/names.hpp"

namespace latemile::maker {

std::string nameOf(Foot foot)
{
    return foot == Foot::Left ? "left" : "right";
}

std::string nameOf(Landing landing)
{
    switch (landing) {
    case Landing::Rearfoot:
        return "rearfoot";
    case Landing::Midfoot:
        return "midfoot";
    case Landing::Forefoot:
        return "forefoot";
    }
    return {};
}

std::string nameOf(View view)
{
    switch (view) {
    case View::LeftSide:
        return "left-side";
    case View::RightSide:
        return "right-side";
    case View::Rear:
        return "rear";
    }
    return {};
}

std::string nameOf(Codec codec)
{
    switch (codec) {
    case Codec::H264:
        return "h264";
    case Codec::Hevc:
        return "hevc";
    case Codec::Mpeg4:
        return "mpeg4";
    case Codec::Mjpeg:
        return "mjpeg";
    case Codec::Vp9:
        return "vp9";
    case Codec::Av1:
        return "av1";
    }
    return {};
}

} // namespace latemile::maker
