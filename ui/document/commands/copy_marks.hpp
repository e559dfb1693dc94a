// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/commands/marks_edit.hpp"

#include <vector>

namespace latemile::ui {

/// The marks of another frame as a start for this one: proposals, until each is looked at.
class CopyMarks final : public MarksEdit {
public:
    /// Only `landmarks` that have no mark on `to` yet.
    CopyMarks(ClipDocument& document, FrameNumber from, FrameNumber to,
              const std::vector<Landmark>& landmarks);
    [[nodiscard]] bool isWork() const { return !m_other.empty(); }

private:
    [[nodiscard]] static Changes copied(const ClipDocument& document, FrameNumber from,
                                        FrameNumber to, const std::vector<Landmark>& landmarks);
};

} // namespace latemile::ui
