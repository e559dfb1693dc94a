// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/readings.hpp"
#include "core/outcome.hpp"

#include <filesystem>

namespace latemile::batch {

/// The exchange files of one marked clip.
struct MarkedFiles {
    std::filesystem::path clip;
    std::filesystem::path marks;
    std::filesystem::path contacts;
    std::filesystem::path scene;
    std::filesystem::path athlete; ///< empty: nothing is known of who was filmed
};

/// Opens the clip for its times and reads the files against it.
Outcome<MarkedClip> markedClipFrom(const MarkedFiles& files);

/// The marks of another file of the same clip.
Outcome<Marking> otherMarking(const MarkedFiles& files, const std::filesystem::path& marks);

} // namespace latemile::batch
