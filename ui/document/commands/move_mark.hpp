// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/commands/marks_edit.hpp"

namespace latemile::ui {

/// The coach puts a landmark somewhere else on one frame; moves of one gesture are one step back.
class MoveMark final : public MarksEdit {
public:
    /// `gesture` tells one drag or row of nudges from the next: Qt merges by it alone.
    MoveMark(ClipDocument& document, const MarkKey& key, PixelPoint to, int gesture);
    [[nodiscard]] int id() const override { return 1000 + m_gesture % 1000000; }
    bool mergeWith(const QUndoCommand* later) override;

private:
    const MarkKey m_key;
    const int m_gesture;
};

} // namespace latemile::ui
