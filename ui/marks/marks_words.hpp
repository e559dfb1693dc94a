// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/bones.hpp"

#include <QString>

namespace latemile::ui {

class Keys;
class MarkingFlow;

/// "shank +13 %", at the bone on the picture.
[[nodiscard]] QString oddBoneWord(const OddBone& bone);
/// What the coach may do next, with the keys as they are now.
[[nodiscard]] QString hintText(const MarkingFlow& flow, const Keys& keys);
/// What contradicts itself: on the frame shown first, then how many places are left to look at.
[[nodiscard]] QString warningText(const MarkingFlow& flow, FrameNumber frame, const Keys& keys);
/// "right toe-off": the event that comes after the last one marked; empty before the first contact.
[[nodiscard]] QString dueText(const MarkingFlow& flow);

} // namespace latemile::ui
