// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/commands/stances_edit.hpp"

namespace latemile::ui {

/// The coach says on which frame a foot is first on the ground. Moves the contact of the stance the
/// frame lies in or just before, else begins a new one.
class SetContact final : public StancesEdit {
public:
    SetContact(ClipDocument& document, Foot foot, FrameNumber first);
    /// False where the foot would land while it is still on the ground.
    [[nodiscard]] static bool isPossible(const ClipDocument& document, Foot foot,
                                         FrameNumber first);
};

} // namespace latemile::ui
