// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/commands/marks_edit.hpp"

namespace latemile::ui {

/// The coach looked for a landmark and it is covered: the cell asks for it no more.
class NotVisible final : public MarksEdit {
public:
    NotVisible(ClipDocument& document, const MarkKey& key);
    void redo() override;
    void undo() override;

private:
    const MarkKey m_key;
    bool m_wasUnseen{};
};

} // namespace latemile::ui
