// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/frame_index.hpp"
#include "core/marks/marking.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace latemile {

/// What makes a mark or a stance impossible: the field at fault, as exchange files name it, and the
/// fault in words that go on after its place: "frame", "the clip has no frame 900, its last is
/// 671".
struct MarkingFault {
    std::string_view field;
    std::string what;
};

/// Of one mark alone: a frame before the first, a standard error below 0.
[[nodiscard]] std::optional<MarkingFault> faultOf(const MarkKey& key, const Mark& mark);
/// Of one mark in its clip: a frame the clip does not have, a place more than half a picture
/// outside the upright picture of `width` and `height` pixels.
[[nodiscard]] std::optional<MarkingFault> faultOf(const MarkKey& key, const Mark& mark,
                                                  const FrameIndex& index, int width, int height);
/// Of one stance alone: a contact before 0 s, a toe-off not after it, a standard error below 0.
[[nodiscard]] std::optional<MarkingFault> faultOf(const Stance& stance);
/// Of one stance in its clip: an event more than a frame interval after the last frame.
[[nodiscard]] std::optional<MarkingFault> faultOf(const Stance& stance, const FrameIndex& index);
/// Of a stance and the next one of the same foot: contact before the earlier one's toe-off.
[[nodiscard]] std::optional<MarkingFault> faultBetween(const Stance& earlier, const Stance& later);

} // namespace latemile
