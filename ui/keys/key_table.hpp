// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>

namespace latemile::ui {

/// One act that has a key: the whole list is this table, shown in the window as it stands here.
struct KeyEntry {
    const char* id;    ///< in the settings: "marks.next_cell"
    const char* group; ///< where the key works: "Marks"; "Everywhere"
    const char* name;  ///< "Next cell that wants work"
    const char* keys;  ///< as QKeySequence reads it, until the coach changes it
};

/// Texts are marked for translation in the context "Keys".
[[nodiscard]] std::span<const KeyEntry> keyTable();

} // namespace latemile::ui
