// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/commands/stances_edit.hpp"

namespace latemile::ui {

/// The coach says on which frame a foot is first clear of the ground: the end of the stance that
/// began last before it.
class SetToeOff final : public StancesEdit {
public:
    SetToeOff(ClipDocument& document, Foot foot, FrameNumber first);
    /// False where that foot has no contact before the frame, or lands again before it.
    [[nodiscard]] static bool isPossible(const ClipDocument& document, Foot foot,
                                         FrameNumber first);
};

} // namespace latemile::ui
