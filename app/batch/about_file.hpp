// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"

#include <filesystem>

namespace latemile::batch {

/// Names the file a fault is about, where its sentence does not: in a script over hundreds of clips
/// a sentence alone tells nothing.
template <class T>
Outcome<T> aboutFile(const std::filesystem::path& file, Outcome<T> outcome)
{
    if (!outcome && outcome.error().sentence.find(file.string()) == std::string::npos) {
        outcome.error().sentence = file.string() + ": " + outcome.error().sentence;
    }
    return outcome;
}

} // namespace latemile::batch
