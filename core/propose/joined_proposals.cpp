// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/joined_proposals.hpp"

#include "core/propose/bone_lengths.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

/// Stretches that learn from each other: long against how long errors of following stay alike.
constexpr Seconds stretch{0.05};
/// Frames of the clip, at most, from which a landmark's error is learned: more make it no surer.
constexpr std::size_t mostLessons = 300;
/// The network's errors on frames close by are alike, so that a pose counts once however often it
/// was seen: twice the error of a proposal, by its share within two errors on rendered clips.
constexpr double alikeErrors = 2.0;
/// No pixel's place is known better than this.
constexpr double leastDriftPx = 0.2;
/// Farther apart than this many joint errors the two do not speak of one place.
constexpr double twoPlacesFrom = 3.5;

double square(double value)
{
    return value * value;
}

bool isEvenStretch(Seconds time)
{
    return static_cast<long>(time / stretch) % 2 == 0;
}

double driftOf(const FollowResult& followed, const MarkKey& key)
{
    const auto drift = followed.driftPx.find(key);
    return drift == followed.driftPx.end() ? leastDriftPx : std::max(drift->second, leastDriftPx);
}

/// What the coach placed, and what was followed in all even stretches, or in all others.
KnownPlaces lessonsOf(const BodyPaths& paths, const std::map<MarkKey, Mark>& marks,
                      const FollowResult& followed, bool even)
{
    auto known = placedPlaces(marks);
    const std::size_t step = 2 + paths.frames.size() / mostLessons;
    // Counted among those alone: steps of the clip's frames could keep time with the stretches.
    std::size_t counted = 0;
    for (std::size_t k = 0; k < paths.frames.size(); ++k) {
        if (isEvenStretch(paths.times[k]) != even || counted++ % step != 0) {
            continue;
        }
        for (const auto& [part, path] : paths.paths) {
            const MarkKey key{paths.frames[k], part.side, part.landmark};
            if (const auto mark = followed.marks.find(key); mark != followed.marks.end()) {
                known[key] = {mark->second.at, driftOf(followed, key)};
            }
        }
    }
    return known;
}

/// Each frame's proposals as learned from the stretches that it is not in.
Proposals taughtByOthers(const BodyPaths& paths, const std::map<MarkKey, Mark>& marks,
                         const FollowResult& followed)
{
    std::map<FrameNumber, bool> even;
    for (std::size_t k = 0; k < paths.frames.size(); ++k) {
        even[paths.frames[k]] = isEvenStretch(paths.times[k]);
    }
    auto proposals = proposalsTaughtBy(lessonsOf(paths, marks, followed, false), paths);
    auto others = proposalsTaughtBy(lessonsOf(paths, marks, followed, true), paths);
    for (auto& [key, proposal] : others) {
        if (!even.at(key.frame)) {
            proposals[key] = proposal;
        }
    }
    return proposals;
}

/// Mean variance of the clicks that each landmark's followed marks hang on. Proposals that learned
/// from these hang on them as much, however many they are.
std::map<BodyPart, double> clickVariances(const FollowResult& followed)
{
    std::map<BodyPart, double> sums;
    std::map<BodyPart, double> counts;
    for (const auto& [key, mark] : followed.marks) {
        const double whole = mark.sePx.value_or(0.0);
        const double drift = followed.driftPx.contains(key) ? followed.driftPx.at(key) : 0.0;
        sums[{key.side, key.landmark}] += std::max(0.0, square(whole) - square(drift));
        ++counts[{key.side, key.landmark}];
    }
    for (auto& [part, sum] : sums) {
        sum /= counts[part];
    }
    return sums;
}

/// `seen` by the network and followed to `at`, but for the clicks' errors.
Proposal joined(const Proposal& seen, PixelPoint at, double driftPx)
{
    const double drift = square(driftPx);
    const double network = square(alikeErrors * seen.sePx);
    const double share = network / (network + drift); // of the followed mark
    const double apart =                              // per axis
        (square(at.u - seen.at.u) + square(at.v - seen.at.v)) / 2.0;
    auto result = seen;
    if (apart > square(twoPlacesFrom) * (network + drift)) {
        const bool isFollowed = drift < network;
        result.at = isFollowed ? at : seen.at;
        result.sePx = std::sqrt((isFollowed ? drift : square(seen.sePx)) + apart);
        result.doubt = Doubt::TwoPlaces;
        return result;
    }
    result.at = {share * at.u + (1.0 - share) * seen.at.u,
                 share * at.v + (1.0 - share) * seen.at.v};
    const double byErrors = network * drift / (network + drift);
    const double bySight = share * (1.0 - share) * apart;
    result.sePx = std::sqrt(std::max(byErrors, bySight));
    result.doubt = drift < network ? Doubt::None : seen.doubt;
    return result;
}

/// Where that leg is on that frame, by its proposals and placed marks; nothing where a point is
/// missing.
std::optional<LegOnFrame> legOn(FrameNumber frame, BodySide side, const Proposals& proposals,
                                const std::map<MarkKey, Mark>& marks)
{
    LegOnFrame leg;
    for (std::size_t n = 0; n < bonedPoints.size(); ++n) {
        const MarkKey key{frame, side, bonedPoints[n]};
        if (const auto mark = marks.find(key);
            mark != marks.end() && mark->second.origin == Origin::Placed) {
            leg.at[n] = mark->second.at;
            leg.sePx[n] = leastDriftPx;
        } else if (const auto proposal = proposals.find(key); proposal != proposals.end()) {
            leg.at[n] = proposal->second.at;
            leg.sePx[n] = std::max(proposal->second.sePx, leastDriftPx);
        } else {
            return std::nullopt;
        }
    }
    return leg;
}

/// Leads each point by its bones: what is followed of heel and ankle tells where a toe is that is
/// lost.
void holdLegs(Proposals& proposals, const BodyPaths& paths, const std::map<MarkKey, Mark>& marks)
{
    for (const auto side : {BodySide::Near, BodySide::Far}) {
        std::vector<FrameNumber> frames;
        std::vector<LegOnFrame> legs;
        for (const auto frame : paths.frames) {
            if (const auto leg = legOn(frame, side, proposals, marks)) {
                frames.push_back(frame);
                legs.push_back(*leg);
            }
        }
        holdBoneLengths(legs);
        for (std::size_t k = 0; k < legs.size(); ++k) {
            for (std::size_t n = 0; n < bonedPoints.size(); ++n) {
                const auto proposal = proposals.find({frames[k], side, bonedPoints[n]});
                if (proposal != proposals.end()) {
                    proposal->second.at = legs[k].at[n];
                }
            }
        }
    }
}

bool hasPlaced(const std::map<MarkKey, Mark>& marks)
{
    return std::any_of(marks.begin(), marks.end(),
                       [](const auto& entry) { return entry.second.origin == Origin::Placed; });
}

} // namespace

Proposals joinedProposals(const BodyPaths& paths, const std::map<MarkKey, Mark>& marks,
                          const FollowResult& followed)
{
    auto proposals = taughtByOthers(paths, marks, followed);
    for (auto& [key, proposal] : proposals) {
        if (const auto mark = followed.marks.find(key); mark != followed.marks.end()) {
            proposal = joined(proposal, mark->second.at, driftOf(followed, key));
        }
    }
    holdLegs(proposals, paths, marks);
    const auto clicks = clickVariances(followed);
    for (auto& [key, proposal] : proposals) {
        if (const auto click = clicks.find({key.side, key.landmark}); click != clicks.end()) {
            proposal.sePx = std::sqrt(square(proposal.sePx) + click->second);
        }
    }
    std::erase_if(proposals, [&marks](const auto& entry) {
        const auto mark = marks.find(entry.first);
        return mark != marks.end() && mark->second.origin == Origin::Placed;
    });
    return proposals;
}

BestProposals bestProposals(ClipReader& clip, const BodyPaths& paths,
                            const std::map<MarkKey, Mark>& marks, const FollowOptions& options)
{
    if (!hasPlaced(marks)) {
        return {proposalsFrom(paths, marks), {}};
    }
    Marking marking;
    marking.marks = marks;
    const auto followed = followMarks(clip, marking, options);
    if (followed) {
        return {joinedProposals(paths, marks, *followed), {}};
    }
    const bool isStopped = followed.error().kind == Error::Kind::Cancelled;
    return {proposalsFrom(paths, marks),
            isStopped
                ? ""
                : "Your marks were learned from but not followed: " + followed.error().sentence};
}

} // namespace latemile
