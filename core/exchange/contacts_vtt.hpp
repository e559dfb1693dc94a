// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/marking.hpp"

#include <functional>
#include <string>
#include <vector>

namespace latemile {

/// When a film shows a moment of real time: playing time since its first picture.
using FilmClock = std::function<Seconds(Seconds real)>;
/// Of a film that shows a clip from a moment on at one speed: `slowMotion` playing seconds a real
/// second, `length` playing seconds in all.
[[nodiscard]] FilmClock steadyClock(Seconds from, double slowMotion, Seconds length);

/// The times of the feet on the ground as a WebVTT text track (W3C, WebVTT): one cue a stance, from
/// contact to toe-off; a stance without toe-off is shown for a tenth of a second. Times are those
/// of the film as it plays; what it does not show for any time is left out.
[[nodiscard]] std::string contactsVtt(const std::vector<Stance>& stances, const FilmClock& clock);

} // namespace latemile
