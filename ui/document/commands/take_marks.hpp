// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/commands/marks_edit.hpp"
#include "ui/document/commands/stances_edit.hpp"

namespace latemile::ui {

/// Marks of a file come into the clip, over those of the same landmark and frame; others stay.
class TakeMarks final : public MarksEdit {
public:
    TakeMarks(ClipDocument& document, const std::map<MarkKey, Mark>& marks);
};

/// Contacts of a file come in the place of all there were.
class TakeStances final : public StancesEdit {
public:
    TakeStances(ClipDocument& document, std::vector<Stance> stances);
};

} // namespace latemile::ui
