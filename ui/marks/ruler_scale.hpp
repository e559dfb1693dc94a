// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/quantities.hpp"

namespace latemile::ui {

/// Which stretch of time a ruler shows, and where on it a time lies.
struct RulerScale {
    Seconds from{};
    Seconds to{1.0};
    double left{}; ///< logical pixels
    double right{1.0};

    [[nodiscard]] double at(Seconds time) const;
    [[nodiscard]] Seconds timeAt(double x) const;
    /// A round step of time that leaves at least `apart` pixels between ticks.
    [[nodiscard]] Seconds tickStep(double apart) const;
    /// Shows more or less around a time that stays where it is, within [0, end].
    [[nodiscard]] RulerScale zoomed(double factor, Seconds around, Seconds end) const;
};

} // namespace latemile::ui
