// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/proposals.hpp"

#include "core/propose/systematic_error.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

constexpr double doubtfulInTrunks = 0.2;
/// Of a placed mark that does not say its own error, pixels.
constexpr double defaultClickPx = 1.5;

/// Knee and ankle from the hip, toe from the ankle, in trunk lengths, forward first.
using Pose = Eigen::Matrix<double, 6, 1>;
using Axis = Eigen::Vector2d;

Axis vectorOf(PixelPoint from, PixelPoint to)
{
    return {to.u - from.u, to.v - from.v};
}

std::vector<Pose> posesOf(const BodyPaths& paths, BodySide side)
{
    const auto at = [&](Landmark landmark) -> const auto&
    {
        return paths.paths.at({side, landmark}).at;
    };
    std::vector<Pose> poses;
    for (std::size_t k = 0; k < paths.frames.size(); ++k) {
        Pose pose;
        pose << vectorOf(at(Landmark::Hip)[k], at(Landmark::Knee)[k]),
            vectorOf(at(Landmark::Hip)[k], at(Landmark::Ankle)[k]),
            vectorOf(at(Landmark::Ankle)[k], at(Landmark::Toe)[k]);
        pose /= paths.trunkPx;
        for (const int forward : {0, 2, 4}) {
            pose[forward] *= paths.forwardSign();
        }
        poses.push_back(pose);
    }
    return poses;
}

/// The directions in which a landmark's error is told on one frame, as columns: along its segment,
/// and square to it on the same side of the body whichever way the runner faces.
Eigen::Matrix2d axesOf(const BodyPaths& paths, BodyPart part, std::size_t frame)
{
    const auto model = systematicError(part.landmark);
    const Axis segment = vectorOf(paths.paths.at({part.side, model.from}).at[frame],
                                  paths.paths.at({part.side, model.to}).at[frame]);
    const double length = segment.norm();
    const Axis along = length > 0 ? Axis(segment / length) : Axis(0, -1);
    Eigen::Matrix2d axes;
    axes.col(0) = along;
    axes.col(1) = Axis(-along.y(), along.x()) * paths.forwardSign();
    return axes;
}

/// One placed mark: where in the paths, and by how much it is off them, in trunk lengths.
struct Lesson {
    std::size_t frame{};
    Axis offset;
    double variance{}; ///< of the click and of the frame's own noise
};

double square(double value)
{
    return value * value;
}

std::vector<Lesson> lessonsOf(const BodyPaths& paths, BodyPart part, const KnownPlaces& known)
{
    const auto& path = paths.paths.at(part);
    std::vector<Lesson> lessons;
    for (std::size_t k = 0; k < paths.frames.size(); ++k) {
        const auto place = known.find({paths.frames[k], part.side, part.landmark});
        if (place == known.end() || path.doubt[k] != Doubt::None) {
            continue;
        }
        const Axis off = vectorOf(path.at[k], place->second.at) / paths.trunkPx;
        const double error = place->second.sePx / paths.trunkPx;
        lessons.push_back({k, axesOf(paths, part, k).transpose() * off,
                           square(error) + square(frameNoise(part.landmark, path.peak[k]))});
    }
    return lessons;
}

/// What is known of a landmark's systematic error: the mean of a Gaussian process given the
/// lessons, and its variance.
class LearnedError {
public:
    LearnedError(Landmark landmark, const std::vector<Pose>& poses, std::vector<Lesson> lessons)
        : m_model(systematicError(landmark)), m_poses(poses), m_lessons(std::move(lessons))
    {
        if (m_lessons.empty()) {
            return;
        }
        const auto count = static_cast<Eigen::Index>(m_lessons.size());
        Eigen::MatrixXd covariance(count, count);
        Eigen::MatrixX2d surprise(count, 2);
        for (Eigen::Index i = 0; i < count; ++i) {
            covariance.col(i) = alikeness(lesson(i).frame);
            covariance(i, i) += lesson(i).variance;
            surprise.row(i) = (lesson(i).offset - usual()).transpose();
        }
        m_factor.compute(covariance);
        m_weights = m_factor.solve(surprise);
    }
    [[nodiscard]] Axis mean(std::size_t frame) const
    {
        return m_lessons.empty() ? usual()
                                 : Axis(usual() + m_weights.transpose() * alikeness(frame));
    }
    [[nodiscard]] double variance(std::size_t frame) const
    {
        const double before = square(m_model.betweenClips) + square(m_model.withPose);
        if (m_lessons.empty()) {
            return before;
        }
        const Eigen::VectorXd known = alikeness(frame);
        return std::max(before - known.dot(Eigen::VectorXd(m_factor.solve(known))), 0.0);
    }

private:
    [[nodiscard]] const Lesson& lesson(Eigen::Index i) const
    {
        return m_lessons[static_cast<std::size_t>(i)];
    }
    [[nodiscard]] Axis usual() const { return {m_model.along, m_model.square}; }
    /// Covariance of the error on that frame with that of each lesson.
    [[nodiscard]] Eigen::VectorXd alikeness(std::size_t frame) const
    {
        Eigen::VectorXd values(static_cast<Eigen::Index>(m_lessons.size()));
        for (Eigen::Index i = 0; i < values.size(); ++i) {
            const double apart = (m_poses[frame] - m_poses[lesson(i).frame]).squaredNorm();
            values[i] = square(m_model.betweenClips) +
                        square(m_model.withPose) * std::exp(-apart / (2 * square(poseReach)));
        }
        return values;
    }

    SystematicError m_model;
    const std::vector<Pose>& m_poses;
    std::vector<Lesson> m_lessons;
    Eigen::LLT<Eigen::MatrixXd> m_factor;
    Eigen::MatrixX2d m_weights;
};

void addProposals(Proposals& proposals, const BodyPaths& paths, BodyPart part,
                  const std::vector<Pose>& poses, const KnownPlaces& known)
{
    const auto& path = paths.paths.at(part);
    const LearnedError error(part.landmark, poses, lessonsOf(paths, part, known));
    for (std::size_t k = 0; k < paths.frames.size(); ++k) {
        const MarkKey key{paths.frames[k], part.side, part.landmark};
        const Axis shift = axesOf(paths, part, k) * error.mean(k) * paths.trunkPx;
        double se = std::sqrt(error.variance(k) + square(frameNoise(part.landmark, path.peak[k])));
        if (path.doubt[k] != Doubt::None) {
            se = std::max(se, doubtfulInTrunks);
        }
        proposals[key] = {.at = {path.at[k].u + shift.x(), path.at[k].v + shift.y()},
                          .sePx = se * paths.trunkPx,
                          .peak = path.peak[k],
                          .doubt = path.doubt[k]};
    }
}

} // namespace

KnownPlaces placedPlaces(const std::map<MarkKey, Mark>& marks)
{
    KnownPlaces places;
    for (const auto& [key, mark] : marks) {
        if (mark.origin == Origin::Placed) {
            places[key] = {mark.at, mark.sePx.value_or(defaultClickPx)};
        }
    }
    return places;
}

Proposals proposalsTaughtBy(const KnownPlaces& known, const BodyPaths& paths)
{
    Proposals proposals;
    for (const auto side : {BodySide::Near, BodySide::Far}) {
        const auto poses = posesOf(paths, side);
        for (const auto landmark : sideViewLandmarks) {
            addProposals(proposals, paths, {side, landmark}, poses, known);
        }
    }
    return proposals;
}

Proposals proposalsFrom(const BodyPaths& paths, const std::map<MarkKey, Mark>& marks)
{
    const auto placed = placedPlaces(marks);
    auto proposals = proposalsTaughtBy(placed, paths);
    std::erase_if(proposals, [&](const auto& entry) { return placed.contains(entry.first); });
    return proposals;
}

std::map<MarkKey, Mark> marksOf(const Proposals& proposals)
{
    std::map<MarkKey, Mark> marks;
    for (const auto& [key, proposal] : proposals) {
        marks[key] = {.at = proposal.at, .origin = Origin::Proposed, .sePx = proposal.sePx};
    }
    return marks;
}

} // namespace latemile
