// SPDX-License-Identifier: GPL-3.0-or-later
// What evidence knows of the whole clip.
#include "core/measures/angles.hpp"
#include "core/measures/evidence.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace latemile {

double Evidence::legLength()
{
    if (!m_clip.athlete.legLengthCm) {
        setMissing("the athlete's leg length is not stated");
    }
    return m_clip.athlete.legLengthCm.value_or(1.0);
}

double Evidence::mass()
{
    if (!m_clip.athlete.massKg) {
        setMissing("the athlete's mass is not stated");
    }
    return m_clip.athlete.massKg.value_or(1.0);
}

double Evidence::trunk()
{
    if (!m_clip.trunk) {
        setMissing("shoulder and hip are on no common frame");
        return 1.0;
    }
    m_usedTrunk = true;
    const double moved = movedOnFrame({Landmark::Shoulder, Landmark::Hip}, [](const Figure& point) {
        const auto shoulder = point(Landmark::Shoulder);
        const auto hip = point(Landmark::Hip);
        return std::hypot(shoulder.x - hip.x, shoulder.y - hip.y);
    });
    return (m_clip.trunk->cm + moved / m_clip.trunk->frames) * (1.0 + m_disturbance.trunkBy) *
           (1.0 + m_disturbance.scene.relativeScale);
}

double Evidence::ownVariance() const
{
    if (!m_clip.flatFoot || m_flatVariance == 0.0) {
        return 0.0;
    }
    const auto isOwn = [this](FrameNumber frame) {
        return std::ranges::binary_search(m_marksUsed,
                                          MarkKey{frame, BodySide::Near, Landmark::Heel});
    };
    const auto& frames = m_clip.flatFoot->frames;
    const auto own = static_cast<double>(std::count_if(frames.begin(), frames.end(), isOwn));
    return m_flatVariance * (1.0 - own / static_cast<double>(frames.size()));
}

double Evidence::flatFootDegrees()
{
    if (!m_clip.flatFoot) {
        setMissing("heel and toe not marked while the foot is flat (25 to 50 % of stance)");
        return 0.0;
    }
    const auto& flat = *m_clip.flatFoot;
    m_usedFlatFoot = true;
    m_flatVariance = flat.degreesSe * flat.degreesSe;
    // Turning the plumb line turns the flat foot too: the difference to it keeps.
    const double roll = m_disturbance.scene.rollRadians * 180.0 / std::numbers::pi;
    double moved = 0.0;
    const auto& mark = m_disturbance.mark;
    if (mark && std::binary_search(flat.frames.begin(), flat.frames.end(), mark->frame)) {
        moved = movedOnFrame({Landmark::Heel, Landmark::Toe}, [](const Figure& point) {
            return footDegrees(point(Landmark::Heel), point(Landmark::Toe));
        });
    }
    return flat.degrees + moved / static_cast<double>(flat.frames.size()) -
           m_clip.plane.forwardSign() * roll;
}

PlanePoint Evidence::flatHeel()
{
    if (!m_clip.flatFoot) {
        setMissing("heel and toe not marked while the foot is flat (25 to 50 % of stance)");
        return {};
    }
    m_flatVariance = m_clip.flatFoot->heelSe * m_clip.flatFoot->heelSe;
    return m_clip.plane.shifted(m_clip.flatFoot->heel, m_disturbance.scene);
}

void Evidence::needStillGround()
{
    if (m_clip.ground && m_clip.ground->moves) {
        setMissing("the ground moves through the picture and no belt speed is stated");
    }
}

double Evidence::beltSpeed()
{
    if (!hasBelt()) {
        setMissing("the belt speed is not stated");
        return 0.0;
    }
    m_usedBelt = true;
    return *m_clip.conditions.scene.beltSpeed * (1.0 + m_disturbance.beltBy);
}

} // namespace latemile
