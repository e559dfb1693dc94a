// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/bone_lengths.hpp"

#include "core/median.hpp"
#include "core/propose/systematic_error.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <array>
#include <cmath>

namespace latemile {

namespace {

constexpr std::array legPoints{Landmark::Hip, Landmark::Knee, Landmark::Ankle, Landmark::Heel,
                               Landmark::Toe};
/// By the numbers of the points.
struct Bone {
    std::size_t upper{};
    std::size_t lower{};
};
constexpr std::array bones{Bone{0, 1}, Bone{1, 2}, Bone{2, 3}, Bone{2, 4}, Bone{3, 4}};
constexpr int rounds = 3;
constexpr double perMedianDeviation = 1.4826; ///< normal distribution
constexpr double leastVariation = 0.02;       ///< share of the bone's length
constexpr double doubtfulInTrunks = 0.2;      ///< error of a doubted point, at least

struct Length {
    double usual{};
    double variation{}; ///< standard deviation
};

using Points = Eigen::Matrix<double, 2, legPoints.size()>;

class Leg {
public:
    Leg(BodyPaths& paths, BodySide side) : m_trunk(paths.trunkPx)
    {
        for (std::size_t n = 0; n < legPoints.size(); ++n) {
            m_points[n] = &paths.paths.at({side, legPoints[n]});
        }
        for (std::size_t n = 0; n < bones.size(); ++n) {
            m_lengths[n] = lengthOf(bones[n], paths.frames.size());
        }
    }

    /// From where the points are seen and from how the leg was held on the frame before: a point
    /// seen beyond its neighbours would else stay on their wrong side.
    void hold(std::size_t frame)
    {
        const Points seen = pointsOn(frame);
        Points held = refined(frame, seen, seen);
        if (frame > 0) {
            const Points before = pointsOn(frame - 1);
            const Points carried = before.colwise() + (seen.col(0) - before.col(0));
            const Points other = refined(frame, seen, carried);
            held = costOf(frame, seen, other) < costOf(frame, seen, held) ? other : held;
        }
        for (std::size_t n = 0; n < legPoints.size(); ++n) {
            m_points[n]->at[frame] = {held(0, static_cast<Eigen::Index>(n)),
                                      held(1, static_cast<Eigen::Index>(n))};
        }
    }

private:
    [[nodiscard]] Points pointsOn(std::size_t frame) const
    {
        Points points;
        for (std::size_t n = 0; n < legPoints.size(); ++n) {
            const auto& at = m_points[n]->at[frame];
            points.col(static_cast<Eigen::Index>(n)) << at.u, at.v;
        }
        return points;
    }

    [[nodiscard]] Length lengthOf(const Bone& bone, std::size_t frames) const
    {
        std::vector<double> lengths;
        for (std::size_t k = 0; k < frames; ++k) {
            const auto& a = m_points[bone.upper]->at[k];
            const auto& b = m_points[bone.lower]->at[k];
            lengths.push_back(std::hypot(a.u - b.u, a.v - b.v));
        }
        const double usual = upperMedianOf(lengths);
        for (auto& length : lengths) {
            length = std::abs(length - usual);
        }
        return {usual, std::max(perMedianDeviation * upperMedianOf(std::move(lengths)),
                                leastVariation * usual)};
    }

    [[nodiscard]] double errorOf(std::size_t point, std::size_t frame) const
    {
        const auto& path = *m_points[point];
        const double noise = frameNoise(legPoints[point], path.peak[frame]);
        return m_trunk *
               (path.doubt[frame] == Doubt::None ? noise : std::max(noise, doubtfulInTrunks));
    }

    [[nodiscard]] double costOf(std::size_t frame, const Points& seen, const Points& held) const
    {
        double cost = 0;
        for (Eigen::Index n = 0; n < held.cols(); ++n) {
            const double error = errorOf(static_cast<std::size_t>(n), frame);
            cost += (held.col(n) - seen.col(n)).squaredNorm() / (error * error);
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

    [[nodiscard]] Points refined(std::size_t frame, const Points& seen, Points held) const
    {
        for (int round = 0; round < rounds; ++round) {
            held = step(frame, seen, held);
        }
        return held;
    }

    /// Gauss and Newton's, from `held`.
    [[nodiscard]] Points step(std::size_t frame, const Points& seen, const Points& held) const
    {
        constexpr auto unknowns = static_cast<Eigen::Index>(2 * legPoints.size());
        Eigen::Matrix<double, unknowns, unknowns> normal =
            Eigen::Matrix<double, unknowns, unknowns>::Zero();
        Eigen::Matrix<double, unknowns, 1> right = Eigen::Matrix<double, unknowns, 1>::Zero();
        for (Eigen::Index n = 0; n < held.cols(); ++n) {
            const double error = errorOf(static_cast<std::size_t>(n), frame);
            for (Eigen::Index axis = 0; axis < 2; ++axis) {
                normal(2 * n + axis, 2 * n + axis) += 1.0 / (error * error);
                right(2 * n + axis) += (seen(axis, n) - held(axis, n)) / (error * error);
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

    double m_trunk;
    std::array<LandmarkPath*, legPoints.size()> m_points{};
    std::array<Length, bones.size()> m_lengths{};
};

} // namespace

void holdBoneLengths(BodyPaths& paths)
{
    for (const auto side : {BodySide::Near, BodySide::Far}) {
        Leg leg(paths, side);
        for (std::size_t k = 0; k < paths.frames.size(); ++k) {
            leg.hold(k);
        }
    }
}

} // namespace latemile
