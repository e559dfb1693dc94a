// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/flow_record.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

const PatchMove* moveOf(const FigureMoves& moves, std::size_t patch)
{
    const auto found = std::ranges::find(moves, patch, &PatchMove::patch);
    return found == moves.end() ? nullptr : &*found;
}

/// Carries one landmark along one direction by recorded moves.
class Replay {
public:
    Replay(const FlowRecord& record, const std::vector<double>& times, Landmark landmark,
           const Seeds& seeds, int direction, double pixelsPerCm)
        : m_record(record), m_times(times), m_landmark(landmark), m_seeds(seeds),
          m_direction(direction), m_pixelsPerCm(pixelsPerCm), m_ways(times.size())
    {
    }

    void arriveAt(std::int64_t frame, std::vector<Closure>& closures)
    {
        carryTo(frame);
        if (const auto seed = m_seeds.find(frame); seed != m_seeds.end()) {
            setDown(wayAt(frame), seed->second, timeOf(frame), closures);
            m_lastSeed = frame;
        }
    }
    std::vector<std::optional<Way>> ways() && { return std::move(m_ways); }

private:
    struct Carried {
        cv::Point2d at;
        double spread{};
    };

    std::optional<Way>& wayAt(std::int64_t frame)
    {
        return m_ways[static_cast<std::size_t>(frame)];
    }
    [[nodiscard]] double timeOf(std::int64_t frame) const
    {
        return m_times[static_cast<std::size_t>(frame)];
    }

    void carryTo(std::int64_t frame)
    {
        const auto& carried = m_record[static_cast<std::size_t>(frame)];
        if (carried.key < 0) {
            return;
        }
        // A seed set since the moves were recorded lies between their key and here.
        const bool seedIsLater = m_lastSeed && (*m_lastSeed - carried.key) * m_direction > 0;
        const auto from = seedIsLater ? *m_lastSeed : carried.key;
        const auto& way = wayAt(from);
        if (!way || std::abs(timeOf(frame) - way->since) > longestAlone) {
            return;
        }
        const auto* there = seedIsLater ? &m_record[static_cast<std::size_t>(from)] : nullptr;
        if (const auto moved = carriedBy(carried, there, way->at)) {
            const double drifted =
                driftTime(std::abs(timeOf(frame) - timeOf(from)), moved->spread, m_pixelsPerCm);
            wayAt(frame) = Way{moved->at,   way->since,         way->seedVariance,
                               way->origin, way->clickVariance, way->drifted + drifted};
        }
    }

    /// `between`: the frame on which `at` was set down, where that is not the moves' key.
    [[nodiscard]] std::optional<Carried>
    carriedBy(const CarriedFrame& to, const CarriedFrame* between, cv::Point2d at) const
    {
        cv::Point2d sum;
        double spread = 0.0;
        double total = 0.0;
        for (const auto& move : to.moves) {
            if (std::ranges::find(move.landmarks, m_landmark) == move.landmarks.end()) {
                continue;
            }
            auto start = at;
            if (between != nullptr) {
                const auto* back =
                    between->key == to.key ? moveOf(between->moves, move.patch) : nullptr;
                if (back == nullptr) {
                    continue;
                }
                start = back->move.cameFrom(at);
            }
            const double weight = weightOf(move.move);
            sum += weight * move.move.carried(start);
            spread += weight * move.move.spread;
            total += weight;
        }
        return total > 0.0 ? std::optional(Carried{sum / total, spread / total}) : std::nullopt;
    }

    const FlowRecord& m_record;
    const std::vector<double>& m_times;
    const Landmark m_landmark;
    const Seeds& m_seeds;
    const int m_direction;
    const double m_pixelsPerCm;
    std::optional<std::int64_t> m_lastSeed;
    std::vector<std::optional<Way>> m_ways;
};

} // namespace

Closures bothClosures(Closures a, const Closures& b)
{
    for (std::size_t i = 0; i < landmarkCount; ++i) {
        a[i].insert(a[i].end(), b[i].begin(), b[i].end());
    }
    return a;
}

FigurePaths replayed(const FlowRecords& flow, const std::vector<double>& times,
                     const FigureSeeds& seeds, double pixelsPerCm)
{
    const auto frames = static_cast<std::int64_t>(times.size());
    Ways ahead;
    Ways behind;
    Closures closures;
    for (std::size_t i = 0; i < landmarkCount; ++i) {
        const auto landmark = static_cast<Landmark>(i);
        Replay forwards(flow.forwards, times, landmark, seeds[i], 1, pixelsPerCm);
        for (std::int64_t f = 0; f < frames; ++f) {
            forwards.arriveAt(f, closures[i]);
        }
        Replay backwards(flow.backwards, times, landmark, seeds[i], -1, pixelsPerCm);
        for (auto f = frames - 1; f >= 0; --f) {
            backwards.arriveAt(f, closures[i]);
        }
        ahead[i] = std::move(forwards).ways();
        behind[i] = std::move(backwards).ways();
    }
    return joinedWays(ahead, behind, closures, times, pixelsPerCm);
}

} // namespace latemile
