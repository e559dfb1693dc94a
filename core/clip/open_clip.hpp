// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_file.hpp"
#include "core/clip/clip_reader.hpp"
#include "core/clip/decoded_pictures.hpp"
#include "core/clip/upright.hpp"

#include <memory>

namespace latemile {

/// A clip ready to be read, in the parts that ClipReader and FrameSource put together.
struct OpenClip {
    std::unique_ptr<DecodedPictures> pictures;
    UprightShape shape;
    FrameIndex index;
    ClipFacts facts;
};

/// Decoded in a worker process where the program said so, else in this one.
[[nodiscard]] Outcome<OpenClip> openClip(const std::filesystem::path& file,
                                         const ClipOptions& options);

/// Decoded in this process.
[[nodiscard]] Outcome<OpenClip> openHere(const ClipFile& file, const ClipOptions& options);

} // namespace latemile
