// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/frame_index.hpp"
#include "core/marks/marking.hpp"

#include <map>
#include <utility>

namespace latemile {

/// The marks of legs, of whatever origin, that are sound enough to follow a foot from. `marking`
/// must outlive it.
class SoundMarks {
public:
    explicit SoundMarks(const Marking& marking);

    /// Adds to `seeds`, as if they were placed, those of one side's leg (of a far one the foot) on
    /// the frame nearest to `time`, s, that has all of them, at most 13 ms or half a frame off.
    /// None where there is no such frame. A mark whose error is three times the usual one of its
    /// landmark is in doubt, and so is its leg.
    void addAt(Marking& seeds, BodySide side, double time, const FrameIndex& index) const;

private:
    using Leg = std::map<MarkKey, Mark>;
    [[nodiscard]] Leg legOn(FrameNumber frame, BodySide side) const; ///< empty: not sound

    const Marking& m_marking;
    std::map<std::pair<BodySide, Landmark>, double> m_usual; ///< median standard error, pixels
};

} // namespace latemile
