// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/simulation/marking_coach.hpp"

#include <array>
#include <map>
#include <string>
#include <vector>

namespace latemile::simulation {

/// What was asked of a study.
struct Study {
    std::vector<maker::ClipRecipe> runners; ///< each a run of its own; marked in turn
    int remarkings{2000};                   ///< two clips of one scene each
    double framesASecond{120.0};
    double clipSeconds{6.0};
    Marked marked{Marked::EveryFrame};
    std::uint64_t seed{1};
};

/// Changes a verdict was asked to find, as multiples of the measure's floor.
inline constexpr std::array<double, 4> changes{1.0, 1.5, 2.0, 3.0};

/// What came of one measure.
struct Counts {
    int readings{};       ///< of single steps (strides, pairs; the clip, where it is of the clip)
    int readingsInside{}; ///< the truth lay within value +- 1.96 se
    double errorSum{};
    double errorSquares{};
    double statedSquares{}; ///< sum of se squared

    int means{};       ///< of clips
    int meansInside{}; ///< the long run's mean lay within the mean's 95 % interval

    int pairs{};                             ///< of clips between which nothing changed
    int falselyClear{};                      ///< verdicts of clear change all the same
    int beyondError{};                       ///< |change| > half-width, whatever the floor
    std::array<int, changes.size()> found{}; ///< clear verdicts, had the runner changed by so much

    [[nodiscard]] double readingCoverage() const; ///< percent
    [[nodiscard]] double meanCoverage() const;
    [[nodiscard]] double bias() const;
    [[nodiscard]] double errorSd() const;
    [[nodiscard]] double statedSe() const; ///< root mean square
    [[nodiscard]] double falseClear() const;
    [[nodiscard]] double power(std::size_t change) const;
};

struct Result {
    std::map<std::string, Counts> byMeasure;
    int clips{};
    int notComparable{}; ///< pairs in which a check of a clip was bad
};

/// Marks every runner again and again, reads each clip as the product does, and holds readings,
/// means and verdicts against the model's truth. The same study gives the same result. About 20 ms
/// a clip in a release build.
Outcome<Result> studied(const Study& study);

/// Runners of the study: both sides, several speeds, builds and ways of landing; and one from
/// behind.
[[nodiscard]] std::vector<maker::ClipRecipe> sideRunners();
[[nodiscard]] std::vector<maker::ClipRecipe> rearRunners();

} // namespace latemile::simulation
