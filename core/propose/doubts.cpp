// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/doubts.hpp"

#include "core/median.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

constexpr double faintBelow = 0.5;
constexpr double jumpInTrunks = 0.2;
constexpr double unlikeSmoothedInTrunks = 0.1;
constexpr Seconds neighbourhood{0.1};
constexpr double edgeShare = 0.02;
/// In trunk lengths: of what smoothness and shanks alone tell, every frame of fifteen rendered
/// clips on which the legs were exchanged had less, and one in fifty of the others.
constexpr double surenessOfLegs = 2.0;
/// Frames a leg needs within reach to be told from the other: itself and two before or after.
constexpr int fewestForLegs = 3;

struct Bone {
    Landmark upper{};
    Landmark lower{};
    double limit{}; ///< share of the median length
};
/// The foot's parts turn out of the plane and are short; arms swing across it and are not judged.
constexpr std::array bones{
    Bone{Landmark::Hip, Landmark::Knee, 0.25}, Bone{Landmark::Knee, Landmark::Ankle, 0.25},
    Bone{Landmark::Ankle, Landmark::Heel, 0.5}, Bone{Landmark::Ankle, Landmark::Toe, 0.5},
    Bone{Landmark::Heel, Landmark::Toe, 0.5}};

/// Two clear samples before and two after number `k`, none farther than the neighbourhood; empty
/// where there are not so many.
std::vector<const PathSample*> neighboursOf(std::span<const PathSample> samples,
                                            std::span<const double> peaks, std::size_t k)
{
    std::vector<const PathSample*> near;
    const auto isWithin = [&](std::size_t j) {
        return std::chrono::abs(samples[j].time - samples[k].time) <= neighbourhood;
    };
    const auto take = [&](std::size_t j) {
        if (peaks[j] >= faintBelow) {
            near.push_back(&samples[j]);
        }
    };
    for (std::size_t j = k; near.size() < 2 && j > 0 && isWithin(j - 1); --j) {
        take(j - 1);
    }
    if (near.size() < 2) {
        return {};
    }
    for (std::size_t j = k + 1; near.size() < 4 && j < samples.size() && isWithin(j); ++j) {
        take(j);
    }
    return near.size() < 4 ? std::vector<const PathSample*>() : near;
}

/// Lagrange's cubic through the four, at `time`.
PixelPoint expectedAt(Seconds time, const std::vector<const PathSample*>& near)
{
    PixelPoint expected;
    for (const auto* one : near) {
        double share = 1;
        for (const auto* other : near) {
            if (other != one) {
                share *= (time - other->time) / (one->time - other->time);
            }
        }
        expected.u += share * one->at.u;
        expected.v += share * one->at.v;
    }
    return expected;
}

double distance(PixelPoint a, PixelPoint b)
{
    return std::hypot(a.u - b.u, a.v - b.v);
}

void addBoneDoubts(BodyPaths& paths, BodySide side, const Bone& bone)
{
    const auto& upper = paths.paths.at({side, bone.upper});
    auto& lower = paths.paths.at({side, bone.lower});
    std::vector<double> lengths;
    for (std::size_t k = 0; k < paths.frames.size(); ++k) {
        lengths.push_back(distance(upper.at[k], lower.at[k]));
    }
    const double usual = upperMedianOf(lengths);
    for (std::size_t k = 0; k < lengths.size(); ++k) {
        if (lower.doubt[k] == Doubt::None && std::abs(lengths[k] - usual) > bone.limit * usual) {
            lower.doubt[k] = Doubt::OtherLength;
        }
    }
}

/// Where heel and toe both lie at another length from the ankle, it is the ankle that is elsewhere.
void addAnkleDoubts(BodyPaths& paths, BodySide side)
{
    const auto& heel = paths.paths.at({side, Landmark::Heel}).doubt;
    const auto& toe = paths.paths.at({side, Landmark::Toe}).doubt;
    auto& ankle = paths.paths.at({side, Landmark::Ankle}).doubt;
    for (std::size_t k = 0; k < ankle.size(); ++k) {
        if (ankle[k] == Doubt::None && heel[k] == Doubt::OtherLength &&
            toe[k] == Doubt::OtherLength) {
            ankle[k] = Doubt::OtherLength;
        }
    }
}

/// Feet are stiff: where two of the three pairs of their points lie far apart and the third
/// together, one of that pair has gone over to the other foot.
void addMergedDoubts(BodyPaths& paths)
{
    constexpr std::array footPoints{Landmark::Ankle, Landmark::Heel, Landmark::Toe};
    constexpr double farInTrunks = 0.3;
    constexpr double togetherShare = 1.0 / 3.0; ///< of how far apart the others are
    for (std::size_t k = 0; k < paths.frames.size(); ++k) {
        std::array<double, footPoints.size()> gaps{};
        for (std::size_t n = 0; n < gaps.size(); ++n) {
            gaps[n] = distance(paths.paths.at({BodySide::Near, footPoints[n]}).at[k],
                               paths.paths.at({BodySide::Far, footPoints[n]}).at[k]);
        }
        for (std::size_t n = 0; n < gaps.size(); ++n) {
            const double others = std::min(gaps[(n + 1) % 3], gaps[(n + 2) % 3]);
            if (others < farInTrunks * paths.trunkPx || gaps[n] > togetherShare * others) {
                continue;
            }
            for (const auto side : {BodySide::Near, BodySide::Far}) {
                auto& doubt = paths.paths.at({side, footPoints[n]}).doubt[k];
                doubt = doubt == Doubt::None ? Doubt::LegsAlike : doubt;
            }
        }
    }
}

bool isAtEdge(PixelPoint at, int width, int height)
{
    const double margin = edgeShare * std::max(width, height);
    return at.u < margin || at.v < margin || at.u > width - margin || at.v > height - margin;
}

/// Frames on which any of the near points lies at the edge.
std::size_t addEdgeDoubts(BodyPaths& paths, int width, int height)
{
    std::vector<bool> cut(paths.frames.size(), false);
    for (auto& [part, path] : paths.paths) {
        for (std::size_t k = 0; k < path.at.size(); ++k) {
            if (isAtEdge(path.at[k], width, height)) {
                path.doubt[k] = Doubt::AtEdge;
                cut[k] = cut[k] || part.side == BodySide::Near;
            }
        }
    }
    return static_cast<std::size_t>(std::count(cut.begin(), cut.end(), true));
}

/// Gives the points of both legs on frame `k` that are not doubted yet this one.
void doubtLegs(BodyPaths& paths, std::size_t k, Doubt doubt)
{
    for (auto& [part, path] : paths.paths) {
        const bool leg = part.landmark >= Landmark::Knee && part.landmark <= Landmark::Toe;
        if (leg && path.doubt[k] == Doubt::None) {
            path.doubt[k] = doubt;
        }
    }
}

void addLikenessDoubts(BodyPaths& paths)
{
    for (std::size_t k = 0; k < paths.frames.size(); ++k) {
        if (paths.legSureness[k] < surenessOfLegs) {
            doubtLegs(paths, k, Doubt::LegsAlike);
        }
    }
}

std::size_t addLegDoubts(BodyPaths& paths)
{
    const auto& times = paths.times;
    std::size_t unsure = 0;
    for (std::size_t k = 0; k < times.size(); ++k) {
        const auto near = std::ranges::upper_bound(times, times[k] + neighbourhood) -
                          std::ranges::lower_bound(times, times[k] - neighbourhood);
        if (near >= fewestForLegs) {
            continue;
        }
        ++unsure;
        doubtLegs(paths, k, Doubt::LegUnsure);
    }
    return unsure;
}

std::string ofFrames(std::size_t some, std::size_t all)
{
    return std::to_string(some) + " of " + std::to_string(all) + " frames";
}

} // namespace

std::vector<Doubt> doubtsOf(std::span<const PathSample> samples, std::span<const double> peaks,
                            double trunkPx)
{
    std::vector<Doubt> doubts(samples.size(), Doubt::None);
    for (std::size_t k = 0; k < samples.size(); ++k) {
        if (peaks[k] < faintBelow) {
            doubts[k] = Doubt::Faint;
            continue;
        }
        const auto near = neighboursOf(samples, peaks, k);
        if (!near.empty() &&
            distance(expectedAt(samples[k].time, near), samples[k].at) > jumpInTrunks * trunkPx) {
            doubts[k] = Doubt::Jumps;
        }
    }
    return doubts;
}

void doubtUnlikeSmoothed(LandmarkPath& path, std::span<const PathSample> samples, double trunkPx)
{
    for (std::size_t k = 0; k < samples.size(); ++k) {
        if (path.doubt[k] == Doubt::None &&
            distance(samples[k].at, path.at[k]) > unlikeSmoothedInTrunks * trunkPx) {
            path.doubt[k] = Doubt::Jumps;
        }
    }
}

void addDoubts(BodyPaths& paths, int width, int height)
{
    for (const auto side : {BodySide::Near, BodySide::Far}) {
        for (const auto& bone : bones) {
            addBoneDoubts(paths, side, bone);
        }
        addAnkleDoubts(paths, side);
    }
    const auto all = paths.frames.size();
    if (const auto unsure = addLegDoubts(paths); unsure > 0) {
        paths.remarks.push_back("On " + ofFrames(unsure, all) +
                                " near and far leg may be exchanged, since no frames close by were "
                                "looked at: propose on frames next to each other.");
    }
    addLikenessDoubts(paths);
    addMergedDoubts(paths);
    if (const auto cut = addEdgeDoubts(paths, width, height); cut > 0) {
        paths.remarks.push_back(
            "On " + ofFrames(cut, all) +
            " the runner reaches the edge of the picture: check those points, or "
            "film with more room round the runner.");
    }
}

} // namespace latemile
