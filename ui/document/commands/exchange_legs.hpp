// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/propose/leg_turns.hpp"
#include "ui/document/commands/marks_edit.hpp"

#include <memory>

namespace latemile::ui {

/// Near and far leg change places on a stretch of the clip, in marks that are not the coach's own;
/// proposals made later keep to it.
class ExchangeLegs final : public MarksEdit {
public:
    /// Up to, not with, `to`; none: to the clip's end. `turns` holds what was exchanged so far.
    ExchangeLegs(ClipDocument& document, std::shared_ptr<LegTurns> turns, FrameNumber from,
                 std::optional<FrameNumber> to);
    /// False where no mark would change.
    [[nodiscard]] bool isWork() const { return !m_other.empty(); }
    void redo() override;
    void undo() override;

private:
    void turn();
    std::shared_ptr<LegTurns> m_turns;
    const FrameNumber m_from;
    const std::optional<FrameNumber> m_to;
};

} // namespace latemile::ui
