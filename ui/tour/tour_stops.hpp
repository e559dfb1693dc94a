// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>

namespace latemile::ui {

/// A stop of the tour: the page it stands on and what to see and try there.
struct TourStop {
    const char* page; ///< id of the page list, or "athletes"
    const char* title;
    const char* text;
};

/// One real job from the athlete to the sheet, on the sample session. Texts are marked for
/// translation in the context "Tour".
[[nodiscard]] std::span<const TourStop> tourStops();

} // namespace latemile::ui
