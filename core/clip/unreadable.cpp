// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/unreadable.hpp"

#include "core/clip/libav_owners.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <string>

namespace latemile {

namespace {

/// Beyond the end of any file; two of them still fit a number.
constexpr std::uint64_t farthest = std::uint64_t{1} << 62;

std::uint64_t bigEndian(const char* bytes, int count)
{
    std::uint64_t value = 0;
    for (int i = 0; i < count; ++i) {
        value = value << 8 | static_cast<unsigned char>(bytes[i]);
    }
    return value;
}

/// An ISO base media file (ISO/IEC 14496-12) is a row of boxes; a recorder writes the table of
/// frames ("moov") last, so that a recording cut off has none.
bool isMediaFileWithoutTable(const ClipFile& file)
{
    bool isMedia = false;
    std::array<char, 16> head{};
    std::uint64_t place = 0;
    for (int box = 0; box < 1000 && place < static_cast<std::uint64_t>(file.size()); ++box) {
        const auto read = file.readAt(static_cast<std::int64_t>(place), head.data(), head.size());
        if (read < 8) {
            break;
        }
        const std::string kind(head.data() + 4, 4);
        std::uint64_t size = bigEndian(head.data(), 4);
        if (kind == "moov") {
            return false;
        }
        isMedia = isMedia || kind == "ftyp" || kind == "mdat";
        if (size == 1 && read == 16) {
            size = bigEndian(head.data() + 8, 8);
        }
        if (size < 8 || (box == 0 && !isMedia && kind != "wide" && kind != "free")) {
            break;
        }
        place = std::min(place + std::min(size, farthest), farthest);
    }
    return isMedia;
}

} // namespace

Error unreadable(const ClipFile& file, int code)
{
    const auto name = file.name();
    if (code == AVERROR_EXIT) {
        return {Error::Kind::Damaged,
                "Reading " + name + " took too long; copy it to this machine and try again.",
                libavWords(code)};
    }
    if (isMediaFileWithoutTable(file)) {
        return {Error::Kind::Damaged,
                "The recording " + name +
                    " was cut off before its table of frames was written; copy it again from the "
                    "camera or phone.",
                libavWords(code)};
    }
    return {Error::Kind::Unsupported,
            "The file " + name +
                " is not a video that can be read; export it as mp4, mov, mkv, avi or webm.",
            libavWords(code)};
}

} // namespace latemile
