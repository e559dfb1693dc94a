// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/followed_path.hpp"

#include "core/follow/flow_record.hpp"
#include "core/follow/ways.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <thread>

namespace latemile {

namespace {

constexpr double handOnAfter = 0.025; ///< s

/// Carries a figure along one direction and remembers where it was.
class Carrier {
public:
    Carrier(const RunnerPictures& pictures, const std::vector<double>& times,
            const FigureSeeds& seeds, int direction)
        : m_pictures(pictures), m_times(times), m_seeds(seeds), m_direction(direction)
    {
        for (auto& way : m_walked.ways) {
            way.resize(times.size());
        }
        m_walked.record.resize(times.size());
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
            m_flow.emplace(m_pictures, number(frame), m_keyFigure, Search::Narrow);
        }
    }
    Walked walked() && { return std::move(m_walked); }

private:
    [[nodiscard]] double time(std::int64_t frame) const
    {
        return m_times[static_cast<std::size_t>(frame)];
    }
    [[nodiscard]] std::optional<Way>& way(std::size_t landmark, std::int64_t frame)
    {
        return m_walked.ways[landmark][static_cast<std::size_t>(frame)];
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
        auto moves = m_flow->movesTo(number(frame), guessFor(frame), m_looks);
        const auto carried = carriedBy(moves, m_keyFigure);
        for (std::size_t i = 0; i < landmarkCount; ++i) {
            const auto& from = way(i, m_key);
            const bool isOld = from && std::abs(time(frame) - from->since) > longestAlone;
            if (from && carried.at[i] && !isOld) {
                way(i, frame) = carriedOn(*from, *carried.at[i],
                                          driftTime(std::abs(time(frame) - time(m_key)),
                                                    carried.spread[i], m_pictures.pixelsPerCm()));
            }
        }
        m_walked.record[static_cast<std::size_t>(frame)] = {m_key, std::move(moves)};
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
            setDown(way(i, frame), seed->second, time(frame), m_walked.closures[i]);
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
    Walked m_walked;
    std::int64_t m_key{-1};
    ReducedFigure m_keyFigure;
    std::optional<FigureFlow> m_flow; ///< from the key frame
    PartLooks m_looks;                ///< at the last seeds
};

} // namespace

std::optional<FollowedFigure> followFigure(const RunnerPictures& pictures,
                                           const std::vector<double>& times,
                                           const FigureSeeds& seeds, const FrameSpan& span,
                                           const std::function<bool(double)>& goOn)
{
    const auto frames = static_cast<double>(span.last - span.first + 1);
    Carrier forwards(pictures, times, seeds, 1);
    Carrier backwards(pictures, times, seeds, -1);
    std::atomic<bool> stopped{};
    std::jthread behindThread([&] {
        for (auto i = span.last; i >= span.first && !stopped; --i) {
            backwards.arriveAt(i);
        }
    });
    for (auto i = span.first; i <= span.last && !stopped; ++i) {
        stopped = goOn && !goOn(static_cast<double>(i - span.first) / frames);
        forwards.arriveAt(i);
    }
    behindThread.join();
    if (stopped) {
        return std::nullopt;
    }
    const auto ahead = std::move(forwards).walked();
    const auto behind = std::move(backwards).walked();
    return FollowedFigure{joinedWays(ahead.ways, behind.ways,
                                     bothClosures(ahead.closures, behind.closures), times,
                                     pictures.pixelsPerCm()),
                          {std::move(ahead.record), std::move(behind.record)}};
}

} // namespace latemile
