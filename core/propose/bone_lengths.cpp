// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/bone_lengths.hpp"

#include "core/median.hpp"
#include "core/propose/systematic_error.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <optional>

namespace latemile {

namespace {

/// By the numbers of the points.
struct Bone {
    std::size_t upper{};
    std::size_t lower{};
};
constexpr std::array bones{Bone{0, 1}, Bone{1, 2}, Bone{2, 3}, Bone{2, 4}, Bone{3, 4}};
constexpr int rounds = 3;
constexpr double perMedianDeviation = 1.4826; ///< normal distribution
constexpr double leastVariation = 0.02;       ///< share of the bone's length
constexpr double leastVariationPx = 0.1;      ///< also where a clip's points lie in one place
constexpr double doubtfulInTrunks = 0.2;      ///< error of a doubted point, at least

struct Length {
    double usual{};
    double variation{}; ///< standard deviation
};

using Points = Eigen::Matrix<double, 2, bonedPoints.size()>;

Points pointsOf(const LegOnFrame& leg)
{
    Points points;
    for (std::size_t n = 0; n < leg.at.size(); ++n) {
        points.col(static_cast<Eigen::Index>(n)) << leg.at[n].u, leg.at[n].v;
    }
    return points;
}

Length lengthOf(const Bone& bone, const std::vector<LegOnFrame>& legs)
{
    std::vector<double> lengths;
    for (const auto& leg : legs) {
        const auto& a = leg.at[bone.upper];
        const auto& b = leg.at[bone.lower];
        lengths.push_back(std::hypot(a.u - b.u, a.v - b.v));
    }
    const double usual = upperMedianOf(lengths);
    for (auto& length : lengths) {
        length = std::abs(length - usual);
    }
    return {usual, std::max({perMedianDeviation * upperMedianOf(std::move(lengths)),
                             leastVariation * usual, leastVariationPx})};
}

/// One frame's points as they are seen, and the bones that join them.
class LegToHold {
public:
    LegToHold(const LegOnFrame& seen, const std::array<Length, bones.size()>& lengths)
        : m_seen(pointsOf(seen)), m_errors(seen.sePx), m_lengths(lengths)
    {
    }

    /// From where the points are seen and from how the leg was `before`: a point seen beyond its
    /// neighbours would else stay on their wrong side.
    [[nodiscard]] Points held(const std::optional<Points>& before) const
    {
        const Points bySight = refined(m_seen);
        if (!before) {
            return bySight;
        }
        const Points other = refined(before->colwise() + (m_seen.col(0) - before->col(0)));
        return costOf(other) < costOf(bySight) ? other : bySight;
    }

private:
    [[nodiscard]] double weightOf(Eigen::Index point) const
    {
        const double error = m_errors[static_cast<std::size_t>(point)];
        return 1.0 / (error * error);
    }

    [[nodiscard]] double costOf(const Points& held) const
    {
        double cost = 0;
        for (Eigen::Index n = 0; n < held.cols(); ++n) {
            cost += weightOf(n) * (held.col(n) - m_seen.col(n)).squaredNorm();
        }
        for (std::size_t b = 0; b < bones.size(); ++b) {
            const double length = (held.col(static_cast<Eigen::Index>(bones[b].lower)) -
                                   held.col(static_cast<Eigen::Index>(bones[b].upper)))
                                      .norm();
            const double off = (length - m_lengths[b].usual) / m_lengths[b].variation;
            cost += off * off;
        }
        return cost;
    }

    [[nodiscard]] Points refined(Points held) const
    {
        for (int round = 0; round < rounds; ++round) {
            held = step(held);
        }
        return held;
    }

    /// Gauss and Newton's, from `held`.
    [[nodiscard]] Points step(const Points& held) const
    {
        constexpr auto unknowns = static_cast<Eigen::Index>(2 * bonedPoints.size());
        Eigen::Matrix<double, unknowns, unknowns> normal =
            Eigen::Matrix<double, unknowns, unknowns>::Zero();
        Eigen::Matrix<double, unknowns, 1> right = Eigen::Matrix<double, unknowns, 1>::Zero();
        for (Eigen::Index n = 0; n < held.cols(); ++n) {
            for (Eigen::Index axis = 0; axis < 2; ++axis) {
                normal(2 * n + axis, 2 * n + axis) += weightOf(n);
                right(2 * n + axis) += weightOf(n) * (m_seen(axis, n) - held(axis, n));
            }
        }
        for (std::size_t b = 0; b < bones.size(); ++b) {
            const auto upper = static_cast<Eigen::Index>(bones[b].upper);
            const auto lower = static_cast<Eigen::Index>(bones[b].lower);
            const Eigen::Vector2d along = held.col(lower) - held.col(upper);
            const double length = std::max(along.norm(), 1e-3);
            Eigen::Matrix<double, 1, unknowns> slope = Eigen::Matrix<double, 1, unknowns>::Zero();
            slope.segment<2>(2 * lower) = along.transpose() / length;
            slope.segment<2>(2 * upper) = -along.transpose() / length;
            const double weight = 1.0 / (m_lengths[b].variation * m_lengths[b].variation);
            normal += weight * slope.transpose() * slope;
            right += weight * (m_lengths[b].usual - length) * slope.transpose();
        }
        const Eigen::Matrix<double, unknowns, 1> move = normal.ldlt().solve(right);
        return held + Eigen::Map<const Points>(move.data());
    }

    Points m_seen;
    const std::array<double, bonedPoints.size()>& m_errors;
    const std::array<Length, bones.size()>& m_lengths;
};

double errorOf(Landmark landmark, const LandmarkPath& path, std::size_t frame, double trunk)
{
    const double noise = frameNoise(landmark, path.peak[frame]);
    return trunk * (path.doubt[frame] == Doubt::None ? noise : std::max(noise, doubtfulInTrunks));
}

} // namespace

void holdBoneLengths(std::vector<LegOnFrame>& legs)
{
    if (legs.empty()) {
        return;
    }
    std::array<Length, bones.size()> lengths;
    std::ranges::transform(bones, lengths.begin(),
                           [&legs](const Bone& bone) { return lengthOf(bone, legs); });
    std::optional<Points> before;
    for (auto& leg : legs) {
        const Points held = LegToHold(leg, lengths).held(before);
        for (std::size_t n = 0; n < leg.at.size(); ++n) {
            const auto point = static_cast<Eigen::Index>(n);
            leg.at[n] = {held(0, point), held(1, point)};
        }
        before = held;
    }
}

void holdBoneLengths(BodyPaths& paths)
{
    for (const auto side : {BodySide::Near, BodySide::Far}) {
        std::vector<LegOnFrame> legs(paths.frames.size());
        for (std::size_t n = 0; n < bonedPoints.size(); ++n) {
            const auto& path = paths.paths.at({side, bonedPoints[n]});
            for (std::size_t k = 0; k < legs.size(); ++k) {
                legs[k].at[n] = path.at[k];
                legs[k].sePx[n] = errorOf(bonedPoints[n], path, k, paths.trunkPx);
            }
        }
        holdBoneLengths(legs);
        for (std::size_t n = 0; n < bonedPoints.size(); ++n) {
            for (std::size_t k = 0; k < legs.size(); ++k) {
                paths.paths.at({side, bonedPoints[n]}).at[k] = legs[k].at[n];
            }
        }
    }
}

} // namespace latemile
