// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"

#include <array>
#include <optional>
#include <string_view>
#include <vector>

namespace latemile {

/// A number with its two-sided 95 % interval.
struct WithInterval {
    double value{};
    double low{};
    double high{};
};

/// What was marked several times: one row a target (a step, a runner), one column a marking (a
/// coach, a day); all rows equally long, in one unit.
using Scores = std::vector<std::vector<double>>;

/// The mean squares all of the below is made of: a two-way layout without repeats.
struct MeanSquares {
    int targets{};
    int markings{};
    double betweenTargets{};
    double betweenMarkings{}; ///< a constant shift between markings
    double residual{};        ///< what is left besides targets and shift
    double withinTargets{};   ///< residual and shift together
    double sdAll{};           ///< of all scores
};
/// Fewer than two rows or columns, rows of unequal length and a score that is no number are errors.
Outcome<MeanSquares> meanSquaresOf(const Scores& scores);

/// Intraclass correlations, Shrout & Fleiss 1979: single marking or mean of all k markings; one-way
/// (1), markings drawn from many (2, agreement), these markings alone (3, consistency).
enum class Icc { OneSingle, TwoSingle, ThreeSingle, OneMean, TwoMean, ThreeMean };
inline constexpr std::array everyIcc{Icc::OneSingle, Icc::TwoSingle, Icc::ThreeSingle,
                                     Icc::OneMean,   Icc::TwoMean,   Icc::ThreeMean};
[[nodiscard]] std::string_view nameOf(Icc kind); ///< "ICC(1,1)" ... "ICC(3,k)"
/// With the interval of Shrout & Fleiss (F quantiles; Satterthwaite for the two of ICC(2)). Nothing
/// where targets do not differ or markings repeat exactly: then there is nothing to set against
/// each other.
[[nodiscard]] std::optional<WithInterval> iccOf(Icc kind, const MeanSquares& squares);

/// The kinds of standard error of one marking that are in use; they differ, so say which.
enum class Sem {
    Residual,     ///< root of the residual: a constant shift between the markings is left out
    WithinTarget, ///< Dahlberg: the shift is in it
    FromIcc21,    ///< SD of all scores, times the root of 1 - ICC(2,1): hangs on how people differ
    FromIcc31
};
[[nodiscard]] std::string_view nameOf(Sem kind); ///< in words for a table
[[nodiscard]] double semOf(Sem kind, const MeanSquares& squares);
/// The smallest difference of two markings that is beyond their error: 1.96 sqrt(2) SEM.
[[nodiscard]] double mdc95(double sem);

/// Two markings of the same targets, differences first - second (Bland & Altman 1986, Lancet
/// i:307).
struct Agreement {
    int n{};
    WithInterval bias;
    double sd{};             ///< of the differences
    double typicalError{};   ///< sd / sqrt(2) (Hopkins 2000, Sports Med 30:1)
    double sdAboutZero{};    ///< root mean square difference: for repeats that should not differ
    double withinTargetSd{}; ///< sdAboutZero / sqrt(2)
    WithInterval lowerLimit; ///< bias - multiple * sd
    WithInterval upperLimit;
};
inline constexpr double limitsNormal = 1.96; ///< of a normal distribution
inline constexpr double limitsOfPaper = 2.0; ///< as the paper of 1986 rounds it
/// Unequal numbers, fewer than three pairs and a score that is no number are errors.
Outcome<Agreement> agreementOf(const std::vector<double>& first, const std::vector<double>& second,
                               double multiple = limitsNormal);

} // namespace latemile
