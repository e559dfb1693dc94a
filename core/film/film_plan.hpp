// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/exchange/contacts_vtt.hpp"
#include "core/outcome.hpp"
#include "core/sheet/sheet_content.hpp"

#include <optional>
#include <string>
#include <vector>

namespace latemile {

/// What a film is to show of each clip.
struct FilmWish {
    int steps{2};                   ///< of the near foot, one after another; at least 1
    std::optional<StepNumber> from; ///< the first of them in a clip alone, or of the fresh clip;
                                    ///< none: the first that can be shown
    std::optional<StepNumber> fatiguedFrom;
    double slower{4.0};                ///< playing seconds a real second, 1 to 16
    bool numbers{true};                ///< measured lines with their readings while it stands
    std::vector<std::string> measures; ///< ids; empty: those a sheet shows when none were chosen
    Lengths lengths{Lengths::Centimetres};
};

/// Pictures a second of every film.
inline constexpr int filmRate = 30;
/// How long the film stands at contact and mid-stance.
inline constexpr Seconds filmStand{1.0};

/// One side of one picture of a film: a frame with what is drawn on it.
struct FilmShot {
    Still still;     ///< its crop is one size all through, so that only the runner moves
    Seconds at{};    ///< real time of the clip
    Seconds since{}; ///< since the contact of the step shown; before the first one negative
    bool stands{};   ///< the film stands here, with its lines
    bool operator==(const FilmShot&) const = default;
};

/// A whole film: as many shots of each side as it has pictures.
struct FilmPlan {
    struct Side {
        bool fatigued{};
        std::string minute; ///< "minute 6"; may be empty
        std::vector<FilmShot> shots;
    };
    std::vector<Side> sides; ///< one clip, or fresh and fatigued beside each other
    double slower{};
};

/// Of one clip. Error: no near step from `from` on that has hip and two more landmarks marked at
/// contact and mid-stance.
Outcome<FilmPlan> filmOf(const SheetClip& clip, const FilmWish& wish);

/// Fresh and fatigued side by side, together at each contact, mid-stance and toe-off: between them
/// each runs at its own pace, and the one that is there first waits for the other.
Outcome<FilmPlan> filmOf(const SheetClip& fresh, const SheetClip& fatigued, const FilmWish& wish);

/// When the film shows a moment of a side's clip; before its begin 0, after its end its length.
[[nodiscard]] FilmClock clockOf(const FilmPlan::Side& side);

} // namespace latemile
