// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/page/page_context.hpp"

#include <QString>

#include <span>

class QWidget;

namespace latemile::ui {

/// A page of a session, in the order of a form session. The rail, the keys and the grabbing of
/// pictures all read this list: a page that is not in it is nowhere.
struct PageEntry {
    const char* id;   ///< also its key's id after "page.": "marks"
    const char* name; ///< context "Pages"
    QWidget* (*make)(const PageContext& context, QWidget* parent);
};

[[nodiscard]] std::span<const PageEntry> pageList();
[[nodiscard]] QString nameOf(const PageEntry& entry);

} // namespace latemile::ui
