// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/foot_motion.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <functional>

namespace latemile {

namespace {

constexpr double halfFit = 0.016; ///< s
constexpr std::size_t fewestFrames = 20;
constexpr double lowShare = 0.35;   ///< of the frames in which a toe counts as low
constexpr double swingShare = 0.98; ///< quantile of the speed that counts as swinging ...
/// ... and which it does not exceed by more than this: a foot that jumps to where it is found again
/// is faster for some frames than any swing.
constexpr double mostShare = 0.90;
constexpr double aboveMost = 1.2;
constexpr double standingSlip = 0.06; ///< below it a point stands
constexpr double leastRange = 100.0;  ///< cm/s; a foot that never swings does not run

using Track = std::vector<std::optional<PlanePoint>>;

Track trackOf(const Marking& marking, MarkKey key, const Plane& plane, const FrameIndex& index,
              double cmPerUnit)
{
    Track track(static_cast<std::size_t>(index.size()));
    for (std::int64_t i = 0; i < index.size(); ++i) {
        key.frame.value = i;
        if (const auto* mark = marking.find(key)) {
            const auto point = plane.toPlane(mark->at);
            track[static_cast<std::size_t>(i)] =
                PlanePoint{point.x * cmPerUnit, point.y * cmPerUnit};
        }
    }
    return track;
}

struct Smooth {
    double value{};
    double slope{};
};
using Smoothed = std::vector<std::optional<Smooth>>;

/// A parabola through the samples around each frame; where it has none itself, only between two:
/// of a fast clip landmarks are proposed on every n-th frame.
Smoothed smoothed(const Track& track, const std::vector<double>& times,
                  double (*coordinate)(const PlanePoint&), double half)
{
    Smoothed fits(track.size());
    for (std::size_t i = 0; i < track.size(); ++i) {
        Eigen::Matrix3d normal = Eigen::Matrix3d::Zero();
        Eigen::Vector3d right = Eigen::Vector3d::Zero();
        int n = 0;
        bool isBetween[2]{}; // samples after it, before it
        for (std::size_t back = 0; back < 2; ++back) {
            for (std::size_t k = i + 1 - back; k < track.size(); back == 0 ? ++k : --k) {
                const double t = times[k] - times[i];
                if (std::abs(t) > half) {
                    break;
                }
                if (track[k]) {
                    const Eigen::Vector3d row(1.0, t, t * t);
                    normal += row * row.transpose();
                    right += row * coordinate(*track[k]);
                    ++n;
                    isBetween[back] = true;
                }
            }
        }
        if (n >= 3 && (track[i] || (isBetween[0] && isBetween[1]))) {
            // Times of hundredths of a second make the matrix look singular to an absolute test.
            const Eigen::Vector3d fit = normal.ldlt().solve(right);
            fits[i] = Smooth{fit[0], fit[1]};
        }
    }
    return fits;
}

double quantileOf(std::vector<double> values, double share)
{
    const auto place =
        static_cast<std::ptrdiff_t>(share * static_cast<double>(values.size() - 1) + 0.5);
    std::nth_element(values.begin(), values.begin() + place, values.end());
    return values[static_cast<std::size_t>(place)];
}

/// Half-sample mode: the densest half, of that the densest half, and so on.
double modeOf(std::vector<double> values)
{
    std::sort(values.begin(), values.end());
    auto first = values.begin();
    auto count = static_cast<std::ptrdiff_t>(values.size());
    while (count > 3) {
        const auto half = (count + 1) / 2;
        auto best = first;
        for (auto at = first; at + half <= first + count; ++at) {
            if (*(at + half - 1) - *at < *(best + half - 1) - *best) {
                best = at;
            }
        }
        first = best;
        count = half;
    }
    double sum = 0.0;
    for (std::ptrdiff_t i = 0; i < count; ++i) {
        sum += *(first + i);
    }
    return sum / static_cast<double>(count);
}

/// From standing to swinging, cm/s.
double swingRange(const std::vector<double>& speeds, double groundSpeed)
{
    return std::min(quantileOf(speeds, swingShare) - groundSpeed,
                    aboveMost * (quantileOf(speeds, mostShare) - groundSpeed));
}

double alongOf(const PlanePoint& point)
{
    return point.x;
}

double heightOf(const PlanePoint& point)
{
    return point.y;
}

struct EndFits {
    Smoothed x;
    Smoothed y;
};

EndFits fitsOf(const Track& track, const std::vector<double>& times, double half)
{
    return {smoothed(track, times, alongOf, half), smoothed(track, times, heightOf, half)};
}

std::vector<std::optional<EndMotion>> motionOf(const EndFits& fits, double groundSpeed,
                                               double range)
{
    std::vector<std::optional<EndMotion>> motion(fits.x.size());
    std::vector<double> standing;
    std::vector<double> all;
    for (std::size_t i = 0; i < motion.size(); ++i) {
        if (fits.x[i] && fits.y[i]) {
            const double slip =
                std::hypot(fits.x[i]->slope - groundSpeed, fits.y[i]->slope) / range;
            motion[i] =
                EndMotion{fits.y[i]->value, fits.y[i]->slope / range, slip, fits.x[i]->value};
            all.push_back(fits.y[i]->value);
            if (slip < standingSlip) {
                standing.push_back(fits.y[i]->value);
            }
        }
    }
    if (all.empty()) {
        return motion;
    }
    const double level = standing.size() > 3 ? quantileOf(standing, 0.5) : quantileOf(all, 0.2);
    for (auto& end : motion) {
        if (end) {
            end->height -= level;
        }
    }
    return motion;
}

} // namespace

std::optional<double> FootMotion::slip(std::size_t frame) const
{
    if (heel[frame] && toe[frame]) {
        return std::min(heel[frame]->slip, toe[frame]->slip);
    }
    const auto& one = heel[frame] ? heel[frame] : toe[frame];
    return one ? std::optional(one->slip) : std::nullopt;
}

std::optional<EndMotion> FootMotion::lower(std::size_t frame) const
{
    if (heel[frame] && toe[frame]) {
        return heel[frame]->height < toe[frame]->height ? heel[frame] : toe[frame];
    }
    return heel[frame] ? heel[frame] : toe[frame];
}

std::optional<FootMotion> footMotionOf(const Marking& marking, BodySide side, const Plane& plane,
                                       const FrameIndex& index, double cmPerUnit)
{
    if (index.size() < static_cast<std::int64_t>(fewestFrames)) {
        return std::nullopt;
    }
    FootMotion foot;
    for (const auto time : index.times()) {
        foot.times.push_back(time.count());
    }
    const double interval = foot.times.back() / static_cast<double>(index.size() - 1);
    const double half = std::max(halfFit, 1.5 * interval) * 1.001;
    const auto heel = fitsOf(trackOf(marking, {{}, side, Landmark::Heel}, plane, index, cmPerUnit),
                             foot.times, half);
    const auto toe = fitsOf(trackOf(marking, {{}, side, Landmark::Toe}, plane, index, cmPerUnit),
                            foot.times, half);
    std::vector<double> heights;
    std::vector<double> speeds;
    for (std::size_t i = 0; i < foot.times.size(); ++i) {
        if (toe.x[i] && toe.y[i]) {
            heights.push_back(toe.y[i]->value);
            speeds.push_back(toe.x[i]->slope);
        }
    }
    if (heights.size() < fewestFrames) {
        return std::nullopt;
    }
    const double low = quantileOf(heights, lowShare);
    std::vector<double> lowSpeeds;
    for (std::size_t i = 0; i < heights.size(); ++i) {
        if (heights[i] <= low) {
            lowSpeeds.push_back(speeds[i]);
        }
    }
    foot.groundSpeed = modeOf(std::move(lowSpeeds));
    foot.range = swingRange(speeds, foot.groundSpeed);
    if (foot.range < leastRange) {
        return std::nullopt;
    }
    foot.heel = motionOf(heel, foot.groundSpeed, foot.range);
    foot.toe = motionOf(toe, foot.groundSpeed, foot.range);
    return foot;
}

} // namespace latemile
