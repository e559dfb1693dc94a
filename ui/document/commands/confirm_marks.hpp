// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/commands/marks_edit.hpp"

#include <vector>

namespace latemile::ui {

/// The coach looked at followed or proposed marks of a frame and says they are right: those of the
/// near side that were asked for, and no others that happen to be there.
class ConfirmMarks final : public MarksEdit {
public:
    ConfirmMarks(ClipDocument& document, FrameNumber frame, const std::vector<Landmark>& asked);
    /// False where the frame has nothing to confirm.
    [[nodiscard]] bool isWork() const { return !m_other.empty(); }

private:
    [[nodiscard]] static Changes confirmed(const ClipDocument& document, FrameNumber frame,
                                           const std::vector<Landmark>& asked);
};

} // namespace latemile::ui
