// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/held_pictures.hpp"

#include <cstdint>
#include <functional>
#include <optional>

namespace latemile {

/// Where the coach is going: the sign of the last step.
enum class Travel { Forward, Backward };

/// What the choice of the next picture to read ahead depends on.
struct ReadAheadView {
    const HeldPictures& held;
    std::int64_t frames{};
    Travel travel{};
    std::function<std::int64_t(std::int64_t)> groupStart; ///< first rank of the group of pictures
    std::function<bool(std::int64_t)> isLost;             ///< known not to decode
};

/// The next picture worth decoding while nobody asks: first those ahead in the direction of travel,
/// then the rest of the group behind the play head. Nothing when all are held.
[[nodiscard]] std::optional<std::int64_t> nextToRead(const ReadAheadView& view);

} // namespace latemile
