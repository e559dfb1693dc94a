// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/commands/marks_edit.hpp"

namespace latemile::ui {

/// The coach says where a landmark is; takes back a "not visible" said before.
class PlaceMark final : public MarksEdit {
public:
    PlaceMark(ClipDocument& document, const MarkKey& key, PixelPoint at);
    void redo() override;
    void undo() override;

private:
    const MarkKey m_key;
    bool m_wasUnseen{};
};

} // namespace latemile::ui
