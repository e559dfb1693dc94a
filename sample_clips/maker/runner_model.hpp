// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"
#include "sample_clips/maker/foot.hpp"
#include "sample_clips/maker/upper_body.hpp"

#include <vector>

namespace latemile::maker {

/// One side of the body at one time: joints and marks in the room, cm.
struct SidePose {
    UpperSide upper;
    Vec3 knee;
    Vec3 ankle;
    Vec3 heel;          ///< back lower corner of the shoe
    Vec3 ball;          ///< where the shoe bends
    Vec3 toe;           ///< front of the shoe
    double shoePitch{}; ///< radians, of the part behind the ball; positive: toe up
    double shoeBend{};  ///< radians, of the part before it against the part behind it
    bool grounded{};    ///< from contact to toe-off
};

/// The whole runner at one time.
struct Pose {
    SidePose left;
    SidePose right;
    Vec3 pelvis;
    Vec3 midShoulder;
    [[nodiscard]] const SidePose& of(Foot foot) const { return foot == Foot::Left ? left : right; }
};

/// A runner in motion: a pure function of time, exact and smooth. Segment lengths never change, a
/// foot on the ground goes with the ground, and contacts and toe-offs are known to the last digit.
/// A value; reading it is safe from any thread.
class RunnerModel {
public:
    /// Fails when the numbers ask for a leg longer than this runner's.
    static Outcome<RunnerModel> create(const RunnerRecipe& recipe, double duration);

    [[nodiscard]] Pose pose(double seconds) const; ///< 0 to the duration, in the room
    [[nodiscard]] const std::vector<Footfall>& footfalls() const { return m_falls; }
    [[nodiscard]] const Body& body() const { return m_body; }
    [[nodiscard]] const Gait& gait() const { return m_gait; }
    [[nodiscard]] const RunnerRecipe& recipe() const { return m_recipe; }
    /// Where the runner's own x = 0 is in the room: it moves only over the ground.
    [[nodiscard]] double travelled(double seconds) const;

private:
    RunnerModel(const RunnerRecipe& recipe, const Gait& gait, double duration);

    /// What a leg does, as angles: thigh and shank from the vertical and tilt sideways (radians),
    /// with the shoe against the shank and its bend.
    struct LegAngles {
        double thigh{}, shank{}, tilt{}, ankle{}, bend{};
    };
    struct Swing {
        Spline thigh, knee, tilt, ankle, bend;
    };

    [[nodiscard]] LegAngles onGround(std::size_t fall, double seconds) const;
    [[nodiscard]] ShoePose shoeOf(std::size_t fall, double seconds) const;
    [[nodiscard]] LegAngles reaching(Vec3 hip, Vec3 ankle, double pitch, double bend) const;
    /// How a leg is as its foot meets the ground: the knee's bend (radians) and the rates of bend,
    /// ankle height (cm/s) and pitch of the shoe.
    struct Landing {
        double knee{}, kneeRate{}, ankleRate{}, pitchRate{};
    };
    [[nodiscard]] Landing landingOf(std::size_t fall) const;
    [[nodiscard]] LegAngles approach(std::size_t fall, double before) const;
    [[nodiscard]] Swing swingAfter(std::size_t fall) const;
    [[nodiscard]] std::size_t lastFall(Foot foot, double seconds) const;
    [[nodiscard]] SidePose side(Foot foot, double seconds) const;
    [[nodiscard]] bool isPossible() const;

    RunnerRecipe m_recipe;
    double m_duration{};
    Body m_body;
    Gait m_gait;
    std::vector<Footfall> m_falls;
    UpperBody m_upper;
    std::vector<double> m_heels; ///< of each landing: x of the flat heel at contact
    std::vector<Swing> m_swings; ///< of each landing: the swing that follows it; two fewer
};

} // namespace latemile::maker
