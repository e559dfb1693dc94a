// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/commands/marks_edit.hpp"

namespace latemile::ui {

/// Proposed marks come into the clip in the place of older proposed ones. What the coach placed or
/// said is not visible stays, and so does what was followed. The parts of one piece of work are one
/// step back.
class ProposeMarks final : public MarksEdit {
public:
    /// What becomes of older proposals that have no new one in their place.
    enum class Others { Stay, Go };
    /// `piece` tells one piece of work from the next.
    ProposeMarks(ClipDocument& document, const std::map<MarkKey, Mark>& proposed, int piece,
                 Others others = Others::Stay);
    /// False where nothing would change.
    [[nodiscard]] bool isWork() const { return !m_other.empty(); }
    [[nodiscard]] int id() const override { return 2000000 + m_piece % 1000000; }
    bool mergeWith(const QUndoCommand* later) override;

private:
    [[nodiscard]] static Changes changesFor(const ClipDocument& document,
                                            const std::map<MarkKey, Mark>& proposed, Others others);
    const int m_piece;
};

} // namespace latemile::ui
