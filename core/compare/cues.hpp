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
    std::string think;   ///< "Set each foot down beneath you"
    std::string why;     ///< one sentence
    std::string drill;   ///< what to do, how long, how often
    std::string caution; ///< may be empty
    struct Answers {
        std::string measure;
        bool rose{}; ///< answers a clear rise of the measure; false: a clear fall
        bool operator==(const Answers&) const = default;
    };
    std::vector<Answers> answers;
    bool operator==(const Cue&) const = default;
};

/// The cue library, in the order of the file. A missing or empty text, an id given twice, a change
/// that is neither "rose" nor "fell" and a version other than 1 are faults that name file and cue.
Outcome<std::vector<Cue>> readCues(const std::filesystem::path& file);

/// A cue that fits, and the sentence of the comparison that says why.
struct FittingCue {
    const Cue* cue{};
    std::string because; ///< of its clear changes the largest beside its own error
};

/// At most two, best first: those that answer most clear changes, ties by the order of the file. A
/// measure told for both feet and for each counts once; the second cue answers at least one change
/// that the first does not. None without a clear change. Points into `cues`.
[[nodiscard]] std::vector<FittingCue> fittingCues(const Comparison& comparison,
                                                  const std::vector<Cue>& cues);
std::vector<FittingCue> fittingCues(const Comparison& comparison, std::vector<Cue>&& cues) = delete;

/// The clear change of `comparison` that `cue` answers best; nothing where it answers none.
[[nodiscard]] const ComparisonRow* reasonFor(const Cue& cue, const Comparison& comparison);

} // namespace latemile
