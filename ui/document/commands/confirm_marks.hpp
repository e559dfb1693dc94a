// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/commands/marks_edit.hpp"

namespace latemile::ui {

/// The coach looked at followed or proposed marks of a frame and says they are right.
class ConfirmMarks final : public MarksEdit {
public:
    ConfirmMarks(ClipDocument& document, FrameNumber frame);
    /// False where the frame has nothing to confirm.
    [[nodiscard]] bool isWork() const { return !m_other.empty(); }

private:
    [[nodiscard]] static Changes confirmed(const ClipDocument& document, FrameNumber frame);
};

} // namespace latemile::ui
