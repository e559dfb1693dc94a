// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/commands/marks_edit.hpp"

namespace latemile::ui {

/// The coach takes a mark away.
class RemoveMark final : public MarksEdit {
public:
    RemoveMark(ClipDocument& document, const MarkKey& key);
};

} // namespace latemile::ui
