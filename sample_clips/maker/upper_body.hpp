// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "sample_clips/maker/body.hpp"
#include "sample_clips/maker/gait.hpp"
#include "sample_clips/maker/random.hpp"
#include "sample_clips/maker/spline.hpp"

#include <vector>

namespace latemile::maker {

/// The places of one side of the upper body, in cm.
struct UpperSide {
    Vec3 ear;
    Vec3 shoulder;
    Vec3 elbow;
    Vec3 wrist;
    Vec3 hip;
};

/// The upper body over time, in a frame that moves with the belt's own room (the runner stays near
/// x = 0). All motion is a smooth function of a phase that grows by 1 a step, plus slow wandering.
class UpperBody {
public:
    UpperBody(const RunnerRecipe& recipe, const Body& body, const Gait& gait,
              const std::vector<Footfall>& falls);

    [[nodiscard]] Vec3 pelvis(double seconds) const;
    [[nodiscard]] Vec3 hip(Foot side, double seconds) const;
    [[nodiscard]] Vec3 midShoulder(double seconds) const;
    [[nodiscard]] UpperSide side(Foot side, double seconds) const;

private:
    [[nodiscard]] double strideWave(double seconds, double lead) const;
    [[nodiscard]] double stepWave(double seconds, double lead) const;
    [[nodiscard]] double pelvisHeightAtContact() const;

    RunnerRecipe m_recipe;
    Body m_body;
    Gait m_gait;
    Spline m_phase; ///< steps since a left contact; whole numbers at contacts
    double m_pelvisHeight{};
    Wander m_drift, m_leanWander, m_headWander, m_bounceWander, m_armWander;
};

} // namespace latemile::maker
