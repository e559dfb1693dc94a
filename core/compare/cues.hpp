// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/compare/comparison.hpp"
#include "core/outcome.hpp"

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace latemile {

/// One thing for the athlete to think of, with a drill (resources/cues.json).
struct Cue {
    std::string id;
    std::string think;   ///< "Land under yourself"
    std::string why;     ///< one sentence
    std::string drill;   ///< what to do, how long, how often
    std::string caution; ///< may be empty
    struct Answers {
        std::string measure;
        bool rose{}; ///< answers a clear rise of the measure; false: a clear fall
    };
    std::vector<Answers> answers;
};

Outcome<std::vector<Cue>> readCues(const std::filesystem::path& file);

/// A cue that fits, and the sentence of the comparison that says why.
struct FittingCue {
    const Cue* cue{};
    std::string because;
};

/// At most two, best first: those that answer most clear changes, ties by the order of the file.
/// None without a clear change. Points into `cues`.
[[nodiscard]] std::vector<FittingCue> fittingCues(const Comparison& comparison,
                                                  const std::vector<Cue>& cues);

} // namespace latemile
