// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/clip_document.hpp"

#include <QUndoCommand>

#include <optional>
#include <vector>

namespace latemile::ui {

/// The coach states at how many frames a real second a clip was filmed. All real times of the clip
/// change with it, so the events go along and stay on their frames.
class SetCaptureRate final : public QUndoCommand {
public:
    /// `rate`: none, where the file itself is to be believed. Needs the clip open.
    SetCaptureRate(ClipDocument& document, std::optional<double> rate);
    void redo() override;
    void undo() override;

private:
    ClipDocument& m_document;
    Scene m_other;
    std::vector<Stance> m_stances;
};

} // namespace latemile::ui
