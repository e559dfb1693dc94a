// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/readings.hpp"
#include "core/outcome.hpp"

#include <CLI/App.hpp>

#include <filesystem>
#include <string>

namespace latemile::batch {

/// Which marked clip a word is asked about: a video with its exchange files, or one of a session.
struct ClipChoice {
    std::filesystem::path clip; ///< or the folder of a session
    std::filesystem::path marks;
    std::filesystem::path contacts;
    std::filesystem::path scene;
    std::filesystem::path athlete; ///< empty: nothing is known of who was filmed
    std::string condition;         ///< not empty: the clip of that condition in a session's folder
};

/// A marked clip and the video it belongs to.
struct ChosenClip {
    std::filesystem::path file;
    MarkedClip marked;
};

/// Adds CLIP, --condition and the files that exclude it; gives --condition, for what else does.
CLI::Option* addClipChoice(CLI::App& word, ClipChoice& choice);
/// Wrong use, told by the word's name, where neither a condition nor all files are given.
void needWhole(const ClipChoice& choice, const CLI::App& word);
Outcome<ChosenClip> chosenClip(const ClipChoice& choice);

} // namespace latemile::batch
