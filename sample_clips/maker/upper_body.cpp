// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/upper_body.hpp"

#include "sample_clips/maker/foot.hpp"

#include <numbers>

namespace latemile::maker {

namespace {
constexpr double pi = std::numbers::pi;
// Shares of a step, near the middle of the stance.
constexpr double lowestPelvis = 0.34;
constexpr double stanceMiddle = 0.37;

Spline phaseOf(const std::vector<Footfall>& falls, double stepTime)
{
    std::vector<double> times;
    std::vector<double> steps;
    double step = falls.front().foot == Foot::Left ? 0.0 : 1.0;
    for (const auto& fall : falls) {
        times.push_back(fall.contact);
        steps.push_back(step);
        step += 1.0;
    }
    return {std::move(times), std::move(steps), 1.0 / stepTime, 1.0 / stepTime};
}

/// From the middle of the body to its left or right end: turned about the vertical by `turn`
/// (positive: left end forward) and tipped by `tip` (positive: left end up), radians.
Vec3 half(double width, Foot side, double turn, double tip)
{
    const Vec3 left{std::sin(turn) * std::cos(tip), std::sin(tip), -std::cos(turn) * std::cos(tip)};
    return left * (side == Foot::Left ? width : -width);
}
} // namespace

UpperBody::UpperBody(const RunnerRecipe& recipe, const Body& body, const Gait& gait,
                     const std::vector<Footfall>& falls)
    : m_recipe(recipe), m_body(body), m_gait(gait), m_phase(phaseOf(falls, gait.stepTime)),
      m_drift(recipe.seed, 101), m_leanWander(recipe.seed, 102), m_headWander(recipe.seed, 103),
      m_bounceWander(recipe.seed, 104), m_armWander(recipe.seed, 105)
{
    if (recipe.planar) {
        m_body.halfHips = m_body.halfShoulders = m_body.halfHead = 0.0;
    }
    m_pelvisHeight = pelvisHeightAtContact() + m_gait.bounce * std::cos(2 * pi * lowestPelvis);
}

double UpperBody::pelvisHeightAtContact() const
{
    // The height that gives the knee its stated bend over a foot that far ahead.
    const Footfall fall{.contact = 0.0, .toeOff = 1.0, .landingPitch = m_gait.landingPitch};
    const double ankle = shoeOnGround(m_body, m_gait, fall, 0.0, 0.0).ankle.y;
    const double a = m_body.thigh;
    const double b = m_body.shank;
    const double reach2 = a * a + b * b + 2 * a * b * std::cos(radians(m_gait.kneeAtContact));
    const double lateral = m_body.halfHips - m_gait.footSpread;
    const double hipRise =
        m_body.halfHips * std::sin(radians(m_gait.pelvisDrop)) * std::cos(pi * stanceMiddle);
    return ankle - hipRise +
           std::sqrt(reach2 - m_gait.footAhead * m_gait.footAhead - lateral * lateral);
}

double UpperBody::strideWave(double seconds, double lead) const
{
    return std::cos(pi * (m_phase.at(seconds) + lead));
}

double UpperBody::stepWave(double seconds, double lead) const
{
    return std::cos(2 * pi * (m_phase.at(seconds) + lead));
}

Vec3 UpperBody::pelvis(double seconds) const
{
    const double spread = m_recipe.variability;
    const double bounce = m_gait.bounce * (1.0 + 0.025 * spread * m_bounceWander.at(seconds));
    const double sway = m_recipe.planar ? 0.0 : -1.0 * strideWave(seconds, -stanceMiddle);
    return {1.2 * spread * m_drift.at(seconds) + 0.8 * stepWave(seconds, 0.05),
            m_pelvisHeight - bounce * stepWave(seconds, -lowestPelvis), sway};
}

Vec3 UpperBody::hip(Foot side, double seconds) const
{
    const double turn = radians(m_gait.pelvisTurn) * strideWave(seconds, 0.1);
    const double drop = radians(m_gait.pelvisDrop) * strideWave(seconds, -stanceMiddle);
    return pelvis(seconds) + half(m_body.halfHips, side, turn, drop);
}

Vec3 UpperBody::midShoulder(double seconds) const
{
    const double lean =
        radians(m_gait.lean + 0.5 * m_recipe.variability * m_leanWander.at(seconds) +
                1.2 * stepWave(seconds, -0.45));
    return pelvis(seconds) + Vec3{std::sin(lean), std::cos(lean), 0.0} * m_body.trunk;
}

UpperSide UpperBody::side(Foot side, double seconds) const
{
    const double sign = side == Foot::Left ? -1.0 : 1.0; // towards which z
    const Vec3 middle = midShoulder(seconds);
    const double turn = -radians(m_gait.shoulderTurn) * strideWave(seconds, 0.05);
    const double tip = m_recipe.planar ? 0.0 : -radians(2.0) * strideWave(seconds, -0.3);
    const double head = radians(m_gait.headAngle + 1.0 * stepWave(seconds, -0.6) +
                                0.5 * m_recipe.variability * m_headWander.at(seconds));
    const double swing = -sign * strideWave(seconds, 0.04); // +1: leg of this side is forward
    const double range = 1.0 + 0.04 * m_recipe.variability * m_armWander.at(seconds);
    const double upper = radians(-17.0 - m_gait.armSwing * range * swing);
    const double bent = upper + radians(m_gait.elbowBend - 9.0 * range * swing);
    const double out = m_recipe.planar ? 0.0 : radians(12.0);
    const double in = m_recipe.planar ? 0.0 : radians(22.0);

    UpperSide it;
    it.hip = hip(side, seconds);
    it.ear = middle + Vec3{std::sin(head), std::cos(head), 0.0} * m_body.ear +
             Vec3{0.0, 0.0, sign * m_body.halfHead};
    it.shoulder = middle + half(m_body.halfShoulders, side, turn, tip);
    it.elbow = it.shoulder + Vec3{std::sin(upper) * std::cos(out), -std::cos(upper) * std::cos(out),
                                  sign * std::sin(out)} *
                                 m_body.upperArm;
    it.wrist = it.elbow + Vec3{std::sin(bent) * std::cos(in), -std::cos(bent) * std::cos(in),
                               -sign * std::sin(in)} *
                              m_body.forearm;
    return it;
}

} // namespace latemile::maker
