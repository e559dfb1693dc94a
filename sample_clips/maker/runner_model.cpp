// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/runner_model.hpp"

#include <algorithm>
#include <cmath>

namespace latemile::maker {

namespace {
constexpr double approachTime = 0.040; ///< s before contact from which the foot comes down
/// The knee is still straightening when the foot begins to come down, radians a second.
constexpr double kneeRateBefore = -2.0;
// Shares of the whole leg's length between hip and ankle.
constexpr double straightest = 0.9995;        ///< at any time: a knee bent by 3.6 degrees
constexpr double straightestLanding = 0.9890; ///< at contact: 17 degrees
} // namespace

RunnerModel::RunnerModel(const RunnerRecipe& recipe, const Gait& gait, double duration)
    : m_recipe(recipe), m_duration(duration), m_body(recipe.stature), m_gait(gait),
      m_falls(maker::footfalls(recipe, m_gait, duration)), m_upper(recipe, m_body, m_gait, m_falls)
{
    for (auto& fall : m_falls) {
        const Vec3 hip = m_upper.hip(fall.foot, fall.contact);
        const auto shoe = shoeOnGround(m_body, m_gait, fall, 0.0, fall.contact);
        // However a step comes out by chance, nobody lands on a locked knee.
        const double longest = straightestLanding * (m_body.thigh + m_body.shank);
        const double down = std::hypot(shoe.ankle.y - hip.y, fall.spread - hip.z);
        fall.footAhead =
            std::min(fall.footAhead, std::sqrt(std::max(longest * longest - down * down, 1.0)));
        m_heels.push_back(hip.x + fall.footAhead - shoe.ankle.x);
    }
    for (std::size_t i = 0; i + 2 < m_falls.size(); ++i) {
        m_swings.push_back(swingAfter(i));
    }
}

Outcome<RunnerModel> RunnerModel::create(const RunnerRecipe& recipe, double duration)
{
    if (recipe.speed < 1.5 || recipe.speed > 4.5 || recipe.stepRate < 140 ||
        recipe.stepRate > 210 || recipe.stature < 140 || recipe.stature > 210) {
        return fail(Error::Kind::Unsupported,
                    "The model runs at 1.5 to 4.5 m/s, 140 to 210 steps a minute, and is 140 to "
                    "210 cm tall: choose values within.");
    }
    // A leg that would have to stretch lifts its heel sooner and further, as real ones do.
    Gait gait(recipe);
    for (; gait.flatUntil > 0.33; gait.flatUntil -= 0.01, gait.heelRise += 1.6) {
        RunnerModel model(recipe, gait, duration);
        if (model.isPossible()) {
            return model;
        }
    }
    return fail(Error::Kind::Inconsistent,
                "No leg reaches that far at this speed and step rate: take more steps a minute or "
                "a slower speed.");
}

bool RunnerModel::isPossible() const
{
    const double longest = straightest * (m_body.thigh + m_body.shank);
    for (double t = 0; t <= m_duration; t += 0.002) {
        const Pose now = pose(t);
        for (const auto& leg : {now.left, now.right}) {
            const double reach = length(leg.ankle - leg.upper.hip);
            if (!(reach < longest) || leg.heel.y < -0.2 || leg.toe.y < -0.2) {
                return false;
            }
        }
    }
    // Running, not walking: each foot leaves before the other lands.
    return std::adjacent_find(m_falls.begin(), m_falls.end(),
                              [](const Footfall& fall, const Footfall& next) {
                                  return fall.toeOff >= next.contact;
                              }) == m_falls.end();
}

ShoePose RunnerModel::shoeOf(std::size_t fall, double seconds) const
{
    return shoeOnGround(m_body, m_gait, m_falls[fall], m_heels[fall], seconds);
}

RunnerModel::LegAngles RunnerModel::reaching(Vec3 hip, Vec3 ankle, double pitch, double bend) const
{
    const Vec3 way = ankle - hip;
    const double a = m_body.thigh;
    const double b = m_body.shank;
    const double down = std::hypot(way.y, way.z);
    const double cosine = (dot(way, way) - a * a - b * b) / (2 * a * b);
    const double knee = std::acos(std::clamp(cosine, -1.0, 1.0));
    LegAngles leg;
    leg.tilt = std::atan2(way.z, -way.y);
    leg.thigh = std::atan2(way.x, down) + std::atan2(b * std::sin(knee), a + b * std::cos(knee));
    leg.shank = leg.thigh - knee;
    leg.ankle = pitch - leg.shank;
    leg.bend = bend;
    return leg;
}

RunnerModel::LegAngles RunnerModel::onGround(std::size_t fall, double seconds) const
{
    const auto shoe = shoeOf(fall, seconds);
    const auto hip = m_upper.hip(m_falls[fall].foot, seconds);
    return reaching(hip, {shoe.ankle.x, shoe.ankle.y, m_falls[fall].spread}, shoe.pitch, shoe.bend);
}

RunnerModel::Landing RunnerModel::landingOf(std::size_t fall) const
{
    const double contact = m_falls[fall].contact;
    constexpr double h = 1e-4;
    const auto bend = [this, fall](double seconds) {
        const auto leg = onGround(fall, seconds);
        return leg.thigh - leg.shank;
    };
    const auto height = [this, fall](double seconds) { return shoeOf(fall, seconds).ankle.y; };
    const auto pitch = [this, fall](double seconds) { return shoeOf(fall, seconds).pitch; };
    const auto rate = [&](const auto& value) {
        return (4 * value(contact + h) - value(contact + 2 * h) - 3 * value(contact)) / (2 * h);
    };
    return {.knee = bend(contact),
            .kneeRate = rate(bend),
            .ankleRate = rate(height),
            .pitchRate = rate(pitch)};
}

RunnerModel::LegAngles RunnerModel::approach(std::size_t fall, double before) const
{
    // The knee begins to yield before the foot is down, at a steady rate of change: the leg comes
    // to the ground already moving as it will move on it, as in real running.
    const auto landing = landingOf(fall);
    const double yield = (landing.kneeRate - kneeRateBefore) / approachTime;
    const double knee = landing.knee - landing.kneeRate * before + 0.5 * yield * before * before;
    const double a = m_body.thigh;
    const double b = m_body.shank;
    const double reach2 = a * a + b * b + 2 * a * b * std::cos(std::max(knee, 0.1));
    const double seconds = m_falls[fall].contact - before;
    const auto shoe = shoeOf(fall, m_falls[fall].contact);
    const auto hip = m_upper.hip(m_falls[fall].foot, seconds);
    const double height = shoe.ankle.y - landing.ankleRate * before + 600.0 * before * before;
    const double spread = m_falls[fall].spread;
    const double down2 = std::pow(height - hip.y, 2) + std::pow(spread - hip.z, 2);
    const double ahead = std::sqrt(std::max(reach2 - down2, 1.0));
    const double tip = before * (1.0 - before / approachTime);
    return reaching(hip, {hip.x + ahead, height, spread}, shoe.pitch - landing.pitchRate * tip,
                    shoe.bend);
}

RunnerModel::Swing RunnerModel::swingAfter(std::size_t fall) const
{
    const double from = m_falls[fall].toeOff;
    const double to = m_falls[fall + 2].contact;
    const auto at = [&](double share) { return blend(from, to, share); };
    const LegAngles off = onGround(fall, from);
    const LegAngles on = onGround(fall + 2, to);
    const LegAngles near = approach(fall + 2, approachTime);
    const LegAngles nearer = approach(fall + 2, 0.5 * approachTime);
    // Slopes are taken inside the stances, one-sided, to second order.
    constexpr double h = 1e-4;
    const LegAngles off1 = onGround(fall, from - h);
    const LegAngles off2 = onGround(fall, from - 2 * h);
    const LegAngles on1 = onGround(fall + 2, to + h);
    const LegAngles on2 = onGround(fall + 2, to + 2 * h);
    const auto rate = [](double end, double one, double two) {
        return (3 * end - 4 * one + two) / (2 * h);
    };
    const auto through = [&](auto value, std::vector<double> shares, std::vector<double> values) {
        std::vector<double> times{from};
        std::vector<double> knots{value(off)};
        for (std::size_t i = 0; i < shares.size(); ++i) {
            times.push_back(at(shares[i]));
            knots.push_back(values[i]);
        }
        times.insert(times.end(), {to - approachTime, to - 0.5 * approachTime, to});
        knots.insert(knots.end(), {value(near), value(nearer), value(on)});
        return Spline(std::move(times), std::move(knots),
                      rate(value(off), value(off1), value(off2)),
                      -rate(value(on), value(on1), value(on2)));
    };
    const double lift = m_gait.beltSpeed / 270.0; // faster runners fold the leg more
    return {.thigh = through([](const LegAngles& leg) { return leg.thigh; }, {0.33, 0.68},
                             {radians(4.0), radians(34.0 + 4.0 * lift)}),
            .knee = through(
                [](const LegAngles& leg) { return leg.thigh - leg.shank; }, {0.20, 0.42, 0.68},
                {radians(66.0 + 6.0 * lift), radians(80.0 + 15.0 * lift), radians(75.0)}),
            .tilt = through([](const LegAngles& leg) { return leg.tilt; }, {0.5},
                            {blend(off.tilt, on.tilt, 0.5)}),
            .ankle = through([](const LegAngles& leg) { return leg.ankle; }, {0.30, 0.65},
                             {radians(-14.0), radians(10.0)}),
            .bend = through([](const LegAngles& leg) { return leg.bend; }, {0.25, 0.5},
                            {radians(4.0), radians(2.0)})};
}

std::size_t RunnerModel::lastFall(Foot foot, double seconds) const
{
    const auto after =
        std::upper_bound(m_falls.begin(), m_falls.end(), seconds,
                         [](double time, const Footfall& fall) { return time < fall.contact; });
    const auto i = static_cast<std::size_t>(after - m_falls.begin()) - 1;
    return m_falls[i].foot == foot ? i : i - 1;
}

double RunnerModel::travelled(double seconds) const
{
    return m_recipe.overground ? m_gait.beltSpeed * (seconds - 0.5 * m_duration) : 0.0;
}

SidePose RunnerModel::side(Foot foot, double seconds) const
{
    const std::size_t fall = lastFall(foot, seconds);
    const bool grounded = seconds <= m_falls[fall].toeOff;
    const Vec3 way{travelled(seconds), 0.0, 0.0};
    SidePose it;
    it.upper = m_upper.side(foot, seconds);
    it.grounded = grounded;
    LegAngles leg;
    if (grounded) {
        leg = onGround(fall, seconds);
    } else {
        const Swing& swing = m_swings[fall];
        leg.thigh = swing.thigh.at(seconds);
        leg.shank = leg.thigh - swing.knee.at(seconds);
        leg.tilt = swing.tilt.at(seconds);
        leg.ankle = swing.ankle.at(seconds);
        leg.bend = swing.bend.at(seconds);
    }
    const auto along = [&leg](double angle) {
        return Vec3{std::sin(angle), -std::cos(angle) * std::cos(leg.tilt),
                    std::cos(angle) * std::sin(leg.tilt)};
    };
    const Vec3 knee = it.upper.hip + along(leg.thigh) * m_body.thigh;
    const Vec3 ankle = knee + along(leg.shank) * m_body.shank;
    const ShoePose shoe =
        grounded ? shoeOf(fall, seconds)
                 : shoeInAir(m_body, {ankle.x, ankle.y}, leg.shank + leg.ankle, leg.bend);
    const auto inRoom = [&](Vec2 p) { return Vec3{p.x, p.y, ankle.z} + way; };
    it.knee = knee + way;
    it.ankle = ankle + way;
    it.heel = inRoom(shoe.heel);
    it.ball = inRoom(shoe.ball);
    it.toe = inRoom(shoe.toe);
    it.shoePitch = shoe.pitch;
    it.shoeBend = shoe.bend;
    for (Vec3* point :
         {&it.upper.ear, &it.upper.shoulder, &it.upper.elbow, &it.upper.wrist, &it.upper.hip}) {
        *point = *point + way;
    }
    return it;
}

Pose RunnerModel::pose(double seconds) const
{
    const Vec3 way{travelled(seconds), 0.0, 0.0};
    return {.left = side(Foot::Left, seconds),
            .right = side(Foot::Right, seconds),
            .pelvis = m_upper.pelvis(seconds) + way,
            .midShoulder = m_upper.midShoulder(seconds) + way};
}

} // namespace latemile::maker
