// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/commands/marks_edit.hpp"

namespace latemile::ui {

/// Followed marks come into the clip in the place of older followed ones of the same landmarks.
/// What the coach placed, or said is not visible, stays.
class FollowMarks final : public MarksEdit {
public:
    FollowMarks(ClipDocument& document, const std::map<MarkKey, Mark>& followed);
    /// False where nothing would change.
    [[nodiscard]] bool isWork() const { return !m_other.empty(); }

private:
    [[nodiscard]] static Changes changesFor(const ClipDocument& document,
                                            const std::map<MarkKey, Mark>& followed);
};

} // namespace latemile::ui
