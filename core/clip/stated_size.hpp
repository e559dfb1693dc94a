// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_file.hpp"

#include <cstdint>
#include <optional>

namespace latemile {

/// How many bytes a file says that it holds. Matroska, WebM, AVI: from its own head, the Segment of
/// EBML (RFC 8794, RFC 9559) or the chunk of RIFF. MP4, QuickTime: the end of the last of its boxes
/// (ISO/IEC 14496-12). Nothing where it does not say, as a recording that was never closed does
/// not, and for other kinds of file.
[[nodiscard]] std::optional<std::int64_t> statedSize(const ClipFile& file);

} // namespace latemile
