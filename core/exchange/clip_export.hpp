// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"
#include "core/measures/readings.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace latemile {

/// A file of an export, made and not yet written.
struct ExportedFile {
    std::string name; ///< "fresh-marks.csv"
    std::string bytes;
};

/// What of a clip goes out in open formats.
struct ClipExport {
    std::vector<ExportedFile> files;
    std::vector<std::string> leftOut; ///< sentences: which file there is not, and why
};

/// All of a clip's numbers, for other programs: marks, contacts, readings and a data dictionary as
/// tables, the scene as JSON, marks as COCO keypoints (pixels) and as TRC and C3D (millimetres in
/// the runner's plane), contacts as WebVTT in the clip's own playing time. `stem` begins each name.
/// Of who was filmed, when, where and by what nothing goes out. Pure; an unusable scene is an
/// Error.
Outcome<ClipExport> exportOf(const MarkedClip& clip, const ClipFacts& facts,
                             const Readings& readings, const std::string& stem);

/// Writes each file whole or not at all, the folder made where there is none; those written before
/// one that failed stay.
Outcome<void> writeExport(const ClipExport& made, const std::filesystem::path& folder);

} // namespace latemile
