// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/followed_path.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <thread>

namespace latemile {

namespace {

constexpr double handOnAfter = 0.025; ///< s
constexpr double longestAlone = 0.5;  ///< s after a seed to which a path goes on from it
constexpr double driftPower = 1.5;
constexpr double priorWeight = 6.0; ///< gaps at seeds that the usual rate counts for
/// Two ways that lie farther apart than this many standard errors and 2 cm do not follow one thing.
constexpr double doubtErrors = 3.5;
constexpr double doubtCm = 2.0;

/// A landmark while it is carried one way.
struct Way {
    cv::Point2d at;
    double since{}; ///< time of the seed it comes from
    double seedVariance{};
    std::int64_t origin{-1};
};
using Ways = std::array<std::vector<std::optional<Way>>, landmarkCount>;

/// What a way was off by when it came to a seed, per axis, and after how long.
struct Closure {
    double squared{}; ///< mean of both axes, less the seeds' own variances
    double duration{};
};
using Closures = std::array<std::vector<Closure>, landmarkCount>;

double grown(double duration)
{
    return std::pow(std::max(duration, 0.0), driftPower);
}

/// Carries a figure along one direction and remembers where it was.
class Carrier {
public:
    Carrier(const RunnerPictures& pictures, const std::vector<double>& times,
            const FigureSeeds& seeds, int direction)
        : m_pictures(pictures), m_times(times), m_seeds(seeds), m_direction(direction)
    {
        for (auto& way : m_ways) {
            way.resize(times.size());
        }
    }

    void arriveAt(std::int64_t frame)
    {
        if (m_key >= 0) {
            carryTo(frame);
        }
        const bool seeded = setSeeds(frame);
        if (m_key < 0 || seeded || std::abs(time(frame) - time(m_key)) >= handOnAfter) {
            m_key = frame;
            m_keyFigure = figureAt(frame);
        }
    }
    Ways ways() && { return std::move(m_ways); }
    [[nodiscard]] const Closures& closures() const { return m_closures; }

private:
    [[nodiscard]] double time(std::int64_t frame) const
    {
        return m_times[static_cast<std::size_t>(frame)];
    }
    [[nodiscard]] std::optional<Way>& way(std::size_t landmark, std::int64_t frame)
    {
        return m_ways[landmark][static_cast<std::size_t>(frame)];
    }
    [[nodiscard]] FrameNumber number(std::int64_t frame) const
    {
        return {frame + m_pictures.first().value};
    }

    ReducedFigure figureAt(std::int64_t frame)
    {
        ReducedFigure figure;
        for (std::size_t i = 0; i < landmarkCount; ++i) {
            if (const auto& there = way(i, frame)) {
                figure[i] = there->at;
            }
        }
        return figure;
    }

    /// On from the last frame at the speed since the frame before.
    ReducedFigure guessFor(std::int64_t frame)
    {
        const auto last = frame - m_direction;
        const auto before = last - m_direction;
        const bool hasBefore = before >= 0 && before < static_cast<std::int64_t>(m_times.size());
        ReducedFigure guess;
        for (std::size_t i = 0; i < landmarkCount; ++i) {
            const auto& b = way(i, last);
            if (!b) {
                continue;
            }
            guess[i] = b->at;
            if (hasBefore && way(i, before) && way(i, before)->origin == b->origin) {
                const double span = time(last) - time(before);
                const double share = span != 0.0 ? (time(frame) - time(last)) / span : 0.0;
                guess[i] = b->at + share * (b->at - way(i, before)->at);
            }
        }
        return guess;
    }

    void carryTo(std::int64_t frame)
    {
        const auto carried = carryFigure(m_pictures, number(m_key), m_keyFigure, number(frame),
                                         guessFor(frame), m_looks, Search::Narrow);
        for (std::size_t i = 0; i < landmarkCount; ++i) {
            const auto& from = way(i, m_key);
            const bool isOld = from && std::abs(time(frame) - from->since) > longestAlone;
            if (from && carried.at[i] && !isOld) {
                way(i, frame) = Way{*carried.at[i], from->since, from->seedVariance, from->origin};
            }
        }
    }

    /// How the parts look whose landmarks all have a seed here.
    void rememberLooks(std::int64_t frame)
    {
        ReducedFigure seeded;
        for (std::size_t i = 0; i < landmarkCount; ++i) {
            const auto seed = m_seeds[i].find(frame);
            if (seed != m_seeds[i].end()) {
                seeded[i] = seed->second.at;
            }
        }
        auto looks = looksOf(m_pictures, number(frame), seeded);
        for (std::size_t part = 0; part < looks.size(); ++part) {
            if (looks[part]) {
                m_looks[part] = std::move(looks[part]);
            }
        }
    }

    bool setSeeds(std::int64_t frame)
    {
        bool any = false;
        for (std::size_t i = 0; i < landmarkCount; ++i) {
            const auto seed = m_seeds[i].find(frame);
            if (seed == m_seeds[i].end()) {
                continue;
            }
            any = true;
            auto& here = way(i, frame);
            if (here) {
                const auto gap = here->at - seed->second.at;
                m_closures[i].push_back(
                    {std::max(0.0, gap.dot(gap) / 2.0 - seed->second.variance - here->seedVariance),
                     std::abs(time(frame) - here->since)});
            }
            here = Way{seed->second.at, time(frame), seed->second.variance, seed->second.origin};
        }
        if (any) {
            rememberLooks(frame);
        }
        return any;
    }

    const RunnerPictures& m_pictures;
    const std::vector<double>& m_times;
    const FigureSeeds& m_seeds;
    const int m_direction;
    Ways m_ways;
    Closures m_closures;
    std::int64_t m_key{-1};
    ReducedFigure m_keyFigure;
    PartLooks m_looks; ///< at the last seeds
};

/// Square of the drift's rate in reduced pixels: the usual one and what was seen at the seeds. One
/// wild closure (a jump) says nothing of the ordinary drift: each counts for four times the usual
/// at most.
double driftRateSquared(Landmark landmark, const std::vector<Closure>& seen, double pixelsPerCm)
{
    const double usual = std::pow(usualDriftCm(landmark) * pixelsPerCm, 2.0);
    double sum = priorWeight * usual;
    double weight = priorWeight;
    for (const auto& closure : seen) {
        if (closure.duration > 0.0) {
            sum += std::min(closure.squared / grown(closure.duration), 4.0 * usual);
            weight += 1.0;
        }
    }
    return sum / weight;
}

struct Estimate {
    cv::Point2d at;
    double variance{};
    std::int64_t origin{};
};

std::optional<Estimate> estimateFrom(const std::optional<Way>& way, double now, double rateSquared)
{
    if (!way) {
        return std::nullopt;
    }
    return Estimate{way->at, way->seedVariance + rateSquared * grown(std::abs(now - way->since)),
                    way->origin};
}

PathPoint joined(const Estimate& a, const Estimate& b, double doubtFrom)
{
    const double total = a.variance + b.variance;
    const double share = total > 0.0 ? b.variance / total : 0.5; // of a
    const auto apart = a.at - b.at;
    const double squared = apart.dot(apart);
    PathPoint point{share * a.at + (1.0 - share) * b.at, 0.0, share >= 0.5 ? a.origin : b.origin,
                    false, false};
    const double byModel = total > 0.0 ? a.variance * b.variance / total : 0.0;
    const double bySight = share * (1.0 - share) * squared / 2.0;
    point.variance = std::max(byModel, bySight);
    point.isDoubtful = squared > doubtFrom * doubtFrom &&
                       squared > doubtErrors * doubtErrors * 2.0 * total &&
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
        return PathPoint{one->at, one->variance, one->origin, false, false};
    }
    return std::nullopt;
}

} // namespace

double usualDriftCm(Landmark landmark)
{
    // Twelve landmarks in the order of their declaration.
    constexpr std::array<double, landmarkCount> cm{0.4, 6.0, 4.0, 5.0, 5.0, 3.5,
                                                   2.5, 3.5, 6.5, 5.0, 5.0, 4.0};
    return cm[placeOf(landmark)];
}

std::optional<FigurePaths> followFigure(const RunnerPictures& pictures,
                                        const std::vector<double>& times, const FigureSeeds& seeds,
                                        const std::function<bool(double)>& goOn)
{
    const auto frames = static_cast<std::int64_t>(times.size());
    Carrier forwards(pictures, times, seeds, 1);
    Carrier backwards(pictures, times, seeds, -1);
    std::atomic<bool> stopped{};
    std::jthread behindThread([&] {
        for (auto i = frames - 1; i >= 0 && !stopped; --i) {
            backwards.arriveAt(i);
        }
    });
    for (std::int64_t i = 0; i < frames && !stopped; ++i) {
        stopped = goOn && !goOn(static_cast<double>(i) / static_cast<double>(frames));
        forwards.arriveAt(i);
    }
    behindThread.join();
    if (stopped) {
        return std::nullopt;
    }
    auto closures = forwards.closures();
    for (std::size_t i = 0; i < landmarkCount; ++i) {
        const auto& more = backwards.closures()[i];
        closures[i].insert(closures[i].end(), more.begin(), more.end());
    }
    const auto ahead = std::move(forwards).ways();
    const auto behind = std::move(backwards).ways();
    FigurePaths paths;
    for (std::size_t i = 0; i < landmarkCount; ++i) {
        const double rate =
            driftRateSquared(static_cast<Landmark>(i), closures[i], pictures.pixelsPerCm());
        for (std::size_t f = 0; f < times.size(); ++f) {
            paths[i].push_back(pointFrom(estimateFrom(ahead[i][f], times[f], rate),
                                         estimateFrom(behind[i][f], times[f], rate),
                                         doubtCm * pictures.pixelsPerCm()));
        }
    }
    return paths;
}

} // namespace latemile
