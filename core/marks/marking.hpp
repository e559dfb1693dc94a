// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/landmark.hpp"
#include "core/quantities.hpp"

#include <map>
#include <optional>
#include <set>
#include <vector>

namespace latemile {

/// Which body point on which frame.
struct MarkKey {
    FrameNumber frame;
    BodySide side{};
    Landmark landmark{};
    constexpr auto operator<=>(const MarkKey&) const = default;
};

/// Where a landmark was marked, in pixels of the upright picture.
struct Mark {
    PixelPoint at;
    Origin origin{};
    std::optional<double>
        sePx; ///< standard error per axis, pixels; none: the default of its landmark and origin
    bool operator==(const Mark&) const = default;
};

/// One foot's time on the ground, event times by the half-frame rule.
struct Stance {
    Foot foot{};
    Seconds contact{};
    std::optional<Seconds> toeOff; ///< none: not marked, or after the clip's end
    Origin origin{};
    std::optional<Seconds> se; ///< standard error of each event; none: by the frame interval
    bool operator==(const Stance&) const = default;
};

/// What the coach has said about a clip.
struct Marking {
    std::map<MarkKey, Mark> marks;
    std::vector<Stance> stances; ///< in order of contact
    std::set<MarkKey> unseen{};  ///< looked for and covered: an answer, not work left to do
    bool operator==(const Marking&) const = default;

    [[nodiscard]] const Mark* find(const MarkKey& key) const;
};

} // namespace latemile
