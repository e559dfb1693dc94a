// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/landmark.hpp"

#include <array>
#include <optional>

namespace latemile {

/// How well one coach finds each landmark: standard error of a placed mark per axis, cm, from a
/// blind repeat; where that is not known, the default of the landmark.
struct ClickErrors {
    std::array<std::optional<double>, landmarkCount> measured{};

    [[nodiscard]] double of(Landmark landmark) const
    {
        const auto& own = measured[static_cast<std::size_t>(landmark)];
        return own ? *own : defaultClickError(landmark);
    }
    bool operator==(const ClickErrors&) const = default;
};

} // namespace latemile
