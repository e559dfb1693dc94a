// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/sound_marks.hpp"

#include "core/median.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace latemile {

namespace {

/// Of a far leg the foot alone is followed.
constexpr std::array legLandmarks{Landmark::Ankle, Landmark::Heel, Landmark::Toe, Landmark::Knee};
constexpr double nearestMarked = 0.013; ///< s, to a frame with marks; of slow clips half a frame
constexpr double soundShare = 3.0;      ///< of the usual error: a mark more unsure is in doubt

} // namespace

SoundMarks::SoundMarks(const Marking& marking) : m_marking(marking)
{
    std::map<std::pair<BodySide, Landmark>, std::vector<double>> errors;
    for (const auto& [key, mark] : marking.marks) {
        if (mark.sePx) {
            errors[{key.side, key.landmark}].push_back(*mark.sePx);
        }
    }
    for (auto& [part, list] : errors) {
        m_usual[part] = upperMedianOf(std::move(list));
    }
}

void SoundMarks::addAt(Marking& seeds, BodySide side, double time, const FrameIndex& index) const
{
    const auto nearest = index.nearest(Seconds{time});
    const double most = std::max(nearestMarked, 0.51 * index.interval(nearest).count());
    const auto isNear = [&](FrameNumber frame) {
        return index.contains(frame) && std::abs(index.time(frame).count() - time) <= most;
    };
    for (std::int64_t by = 0;; ++by) {
        const FrameNumber after{nearest.value + by};
        const FrameNumber before{nearest.value - by};
        if (!isNear(after) && !isNear(before)) {
            return;
        }
        for (const auto frame : {after, before}) {
            if (const auto foot = isNear(frame) ? legOn(frame, side) : Leg{}; !foot.empty()) {
                seeds.marks.insert(foot.begin(), foot.end());
                return;
            }
        }
    }
}

SoundMarks::Leg SoundMarks::legOn(FrameNumber frame, BodySide side) const
{
    Leg leg;
    for (const auto landmark : legLandmarks) {
        if (side == BodySide::Far && landmark == Landmark::Knee) {
            continue;
        }
        const MarkKey key{frame, side, landmark};
        const auto* mark = m_marking.find(key);
        const auto usual = m_usual.find({side, landmark});
        if (!mark ||
            (mark->sePx && usual != m_usual.end() && *mark->sePx > soundShare * usual->second)) {
            return {};
        }
        leg[key] = {mark->at, Origin::Placed, mark->sePx};
    }
    return leg;
}

} // namespace latemile
