// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/bench/propose_misses.hpp"

#include "core/propose/clip_search.hpp"
#include "core/propose/looks_file.hpp"

#include <algorithm>
#include <cmath>

namespace latemile::bench {

namespace {

constexpr Seconds inside{0.05};
constexpr double frameMs = 8.4;
constexpr Seconds sameEvent{0.1};

std::optional<Seconds> timeOf(const Stance& stance, Event event)
{
    return event == Event::Contact ? std::optional(stance.contact) : stance.toeOff;
}

const Stance* nearestOf(const std::vector<Stance>& found, Foot foot, Event event, Seconds time)
{
    const Stance* nearest = nullptr;
    Seconds least = sameEvent;
    for (const auto& stance : found) {
        const auto there = timeOf(stance, event);
        if (stance.foot == foot && there && std::chrono::abs(*there - time) < least) {
            least = std::chrono::abs(*there - time);
            nearest = &stance;
        }
    }
    return nearest;
}

} // namespace

double quantile(std::vector<double> values, double share)
{
    if (values.empty()) {
        return 0;
    }
    std::ranges::sort(values);
    return values[static_cast<std::size_t>(share * static_cast<double>(values.size() - 1))];
}

void Misses::add(const Truth& truth, PixelPoint at, const Proposal& proposal)
{
    const double u = std::abs(proposal.at.u - at.u);
    const double v = std::abs(proposal.at.v - at.v);
    cm.push_back(std::hypot(u, v) / truth.pixelsPerCm);
    if (proposal.doubt != Doubt::None) {
        ++doubtful;
        return;
    }
    constexpr double farOffCm = 15.0;
    farOff += cm.back() > farOffCm ? 1 : 0;
    within += (u <= 2 * proposal.sePx ? 1 : 0) + (v <= 2 * proposal.sePx ? 1 : 0);
    axes += 2;
}

void add(MissesByPart& misses, const Truth& truth, const Proposals& proposals)
{
    for (const auto& [key, proposal] : proposals) {
        const bool isFarTrunk = key.side == BodySide::Far && key.landmark < Landmark::Knee;
        if (const auto at = truth.at.find(key); at != truth.at.end() && !isFarTrunk) {
            misses[{key.side, key.landmark}].add(truth, at->second, proposal);
        }
    }
}

namespace {

double distance(PixelPoint a, PixelPoint b)
{
    return std::hypot(a.u - b.u, a.v - b.v);
}

/// Sums over knee, ankle and toe of both legs on one frame.
struct LegDistances {
    double asTold{};
    double exchanged{};
    int points{};
};

LegDistances legDistances(const Truth& truth, const Proposals& proposals, FrameNumber frame)
{
    LegDistances sums;
    for (const auto landmark : {Landmark::Knee, Landmark::Ankle, Landmark::Toe}) {
        const auto near = proposals.find({frame, BodySide::Near, landmark});
        const auto far = proposals.find({frame, BodySide::Far, landmark});
        const auto nearTruly = truth.at.find({frame, BodySide::Near, landmark});
        const auto farTruly = truth.at.find({frame, BodySide::Far, landmark});
        if (near == proposals.end() || far == proposals.end() || nearTruly == truth.at.end() ||
            farTruly == truth.at.end()) {
            continue;
        }
        sums.asTold += distance(near->second.at, nearTruly->second) +
                       distance(far->second.at, farTruly->second);
        sums.exchanged += distance(near->second.at, farTruly->second) +
                          distance(far->second.at, nearTruly->second);
        ++sums.points;
    }
    return sums;
}

} // namespace

LegsTold legsTold(const Truth& truth, const Proposals& proposals)
{
    LegsTold told;
    for (const auto& [key, proposal] : proposals) {
        if (key.side != BodySide::Near || key.landmark != Landmark::Ankle) {
            continue;
        }
        const auto sums = legDistances(truth, proposals, key.frame);
        if (sums.points > 0) {
            ++told.frames;
            told.exchanged += sums.exchanged < sums.asTold ? 1 : 0;
        }
    }
    return told;
}

void EventMisses::add(const EventMisses& other)
{
    ms.insert(ms.end(), other.ms.begin(), other.ms.end());
    all += other.all;
    withinFrame += other.withinFrame;
    withinTwoErrors += other.withinTwoErrors;
}

EventMisses missesOf(const Truth& truth, Seconds clipsEnd, Foot foot, Event event,
                     const std::vector<Stance>& found)
{
    EventMisses misses;
    for (const auto& stance : truth.stances) {
        const auto time = timeOf(stance, event);
        if (stance.foot != foot || !time || *time < inside || *time > clipsEnd - inside) {
            continue;
        }
        ++misses.all;
        if (const auto* one = nearestOf(found, foot, event, *time)) {
            const Seconds late = std::chrono::abs(*timeOf(*one, event) - *time);
            misses.ms.push_back(1000.0 * late.count());
            misses.withinFrame += misses.ms.back() <= frameMs ? 1 : 0;
            misses.withinTwoErrors += one->se && late <= 2.0 * *one->se ? 1 : 0;
        }
    }
    return misses;
}

std::vector<FoundBody> looksAt(ClipReader& clip, const std::filesystem::path& file,
                               const std::vector<FrameNumber>& frames)
{
    if (auto kept = looksOf(clip.index(), file, frames)) {
        return kept->found;
    }
    const ClipSearch search{.clip = file,
                            .options = {},
                            .resources = LATEMILE_SOURCE_DIR "/resources",
                            .frames = frames,
                            .box = {},
                            .path = {}};
    auto searched = need(searchClipFile(search, [](double) { return true; }));
    if (!searched.boxWanted.empty()) {
        std::fprintf(stderr, "%s: %s\n", file.c_str(), searched.boxWanted.c_str());
        std::exit(1);
    }
    (void)keepLooks({searched.found, searched.path, {}, {}}, clip.index(), file);
    return searched.found;
}

} // namespace latemile::bench
