// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/ways.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

constexpr double driftPower = 1.5;
constexpr double priorWeight = 6.0;  ///< gaps at seeds that the usual rate counts for
constexpr double leastOfUsual = 0.1; ///< of the square of the usual rate
/// Two ways that lie farther apart than this many standard errors and 2 cm do not follow one thing.
constexpr double doubtErrors = 3.5;
constexpr double doubtCm = 2.0;

double grown(double duration)
{
    return std::pow(std::max(duration, 0.0), driftPower);
}

/// Square of the drift's rate in reduced pixels: the usual one and what was seen at the seeds. One
/// wild closure (a jump) says nothing of the ordinary drift: each counts for four times the usual
/// at most. The less of a closure is drift, the less it tells of it.
double driftRateSquared(Landmark landmark, const std::vector<Closure>& seen, double pixelsPerCm)
{
    const double usual = std::pow(usualDriftCm(landmark) * pixelsPerCm, 2.0);
    double sum = priorWeight * usual;
    double weight = priorWeight;
    for (const auto& closure : seen) {
        if (closure.duration > 0.0) {
            const double drift = usual * grown(closure.duration);
            const double tells = std::pow(drift / (drift + closure.known), 2.0);
            sum += tells *
                   std::clamp(closure.squared / grown(closure.duration), -4.0 * usual, 4.0 * usual);
            weight += tells;
        }
    }
    return std::max(sum / weight, leastOfUsual * usual);
}

struct Estimate {
    cv::Point2d at;
    double variance{};
    std::int64_t origin{};
    double clickVariance{};
    double trust{}; ///< 1, falling to almost 0 where its way is about to end
};

/// Of two places that hang on different placed marks, what they differ by on average since these
/// were clicked.
double clicksBetween(std::int64_t originA, double clickA, std::int64_t originB, double clickB)
{
    return originA == originB ? 0.0 : clickA + clickB;
}

std::optional<Estimate> estimateFrom(const std::optional<Way>& way, double now, double rateSquared)
{
    if (!way) {
        return std::nullopt;
    }
    constexpr double fading = 0.1; // s
    constexpr double least = 0.05;
    const double left = longestAlone - std::abs(now - way->since);
    return Estimate{way->at, way->seedVariance + rateSquared * grown(way->drifted), way->origin,
                    way->clickVariance, std::clamp(left / fading, least, 1.0)};
}

PathPoint joined(const Estimate& a, const Estimate& b, double doubtFrom)
{
    const double ofA = a.variance / (a.trust * a.trust);
    const double ofB = b.variance / (b.trust * b.trust);
    const double total = ofA + ofB;
    const double share = total > 0.0 ? ofB / total : 0.5; // of a
    const auto apart = a.at - b.at;
    const double squared = apart.dot(apart);
    PathPoint point{share * a.at + (1.0 - share) * b.at, 0.0, share >= 0.5 ? a.origin : b.origin,
                    false, false};
    const double clicks = clicksBetween(a.origin, a.clickVariance, b.origin, b.clickVariance);
    const double byModel = share * share * a.variance + (1.0 - share) * (1.0 - share) * b.variance;
    const double bySight = share * (1.0 - share) * (squared / 2.0 - clicks);
    point.variance = std::max(byModel, bySight);
    point.clickVariance =
        a.origin == b.origin
            ? a.clickVariance
            : share * share * a.clickVariance + (1.0 - share) * (1.0 - share) * b.clickVariance;
    point.isDoubtful =
        squared > doubtFrom * doubtFrom &&
        squared > doubtErrors * doubtErrors * 2.0 * (a.variance + b.variance + clicks) &&
        std::min(share, 1.0 - share) > 0.02;
    return point;
}

std::optional<PathPoint> pointFrom(const std::optional<Estimate>& ahead,
                                   const std::optional<Estimate>& behind, double doubtFrom)
{
    if (ahead && behind) {
        return joined(*ahead, *behind, doubtFrom);
    }
    if (const auto& one = ahead ? ahead : behind) {
        return PathPoint{one->at, one->variance, one->origin, false, false, one->clickVariance};
    }
    return std::nullopt;
}

} // namespace

double driftTime(double seconds, double spread, double pixelsPerCm)
{
    constexpr double usualCm = 0.12;
    constexpr double least = 0.3;
    constexpr double most = 4.0;
    return seconds * std::clamp(spread / pixelsPerCm / usualCm, least, most);
}

double usualDriftCm(Landmark landmark)
{
    // Twelve landmarks in the order of their declaration.
    constexpr std::array<double, landmarkCount> cm{0.4, 6.0, 4.0, 5.0, 5.0, 3.5,
                                                   2.5, 3.5, 6.5, 5.0, 5.0, 4.0};
    return cm[placeOf(landmark)];
}

void setDown(std::optional<Way>& way, const Seed& seed, double time, std::vector<Closure>& closures)
{
    if (way) {
        const auto gap = way->at - seed.at;
        const double known =
            seed.variance + way->seedVariance +
            clicksBetween(seed.origin, seed.clickVariance, way->origin, way->clickVariance);
        closures.push_back({gap.dot(gap) / 2.0 - known, known, way->drifted});
    }
    way = Way{seed.at, time, seed.variance, seed.origin, seed.clickVariance};
}

Way carriedOn(const Way& from, cv::Point2d at, double driftTime)
{
    auto way = from;
    way.at = at;
    way.drifted += driftTime;
    return way;
}

FigurePaths joinedWays(const Ways& ahead, const Ways& behind, const Closures& closures,
                       const std::vector<double>& times, double pixelsPerCm)
{
    FigurePaths paths;
    for (std::size_t i = 0; i < landmarkCount; ++i) {
        const double rate = driftRateSquared(static_cast<Landmark>(i), closures[i], pixelsPerCm);
        for (std::size_t f = 0; f < times.size(); ++f) {
            paths[i].push_back(pointFrom(estimateFrom(ahead[i][f], times[f], rate),
                                         estimateFrom(behind[i][f], times[f], rate),
                                         doubtCm * pixelsPerCm));
        }
    }
    return paths;
}

} // namespace latemile
