// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

namespace latemile::ui {

/// What the coach types about a clip: edited together, undone one by one.
struct ClipDetails {
    std::string condition; ///< "fresh", "fatigued", "other"; empty: not said yet
    std::optional<double> minute;
    std::optional<double> inclinePercent;
    std::string shoes;
    std::optional<double> exertion; ///< 0 to 10
    std::optional<bool> pain;
    bool operator==(const ClipDetails&) const = default;
};

} // namespace latemile::ui
