// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/commands/stances_edit.hpp"

namespace latemile::ui {

/// The coach drags a contact or a toe-off to another frame.
class MoveEvent final : public StancesEdit {
public:
    /// `at`: the stance's place in the order of contact; `first`: the first frame that shows the
    /// event.
    MoveEvent(ClipDocument& document, std::size_t at, bool toeOff, FrameNumber first);
    /// False where contact and toe-off would change places or two stances of a foot overlap.
    [[nodiscard]] static bool isPossible(const ClipDocument& document, std::size_t at, bool toeOff,
                                         FrameNumber first);
};

/// True where no stance is impossible alone or with its neighbours of the same foot.
[[nodiscard]] bool arePossible(const std::vector<Stance>& stances);

} // namespace latemile::ui
