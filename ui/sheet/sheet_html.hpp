// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"
#include "core/sheet/sheet_content.hpp"
#include "ui/sheet/sheet_style.hpp"
#include "ui/sheet/still_pictures.hpp"

#include <QString>

#include <filesystem>

namespace latemile::ui {

/// The sheet as one HTML page for whoever reads with a screen reader, a large type or a telephone:
/// language, headings, a table with headers for rows and columns, a description for each picture.
/// The pictures are in the page itself; nothing is loaded from elsewhere, and no script runs. A
/// person's text is text and nothing else.
[[nodiscard]] QString sheetHtml(const SheetContent& content, const StillPictures& pictures,
                                const SheetStyle& style);

/// Writes it whole or not at all. Needs a QGuiApplication.
Outcome<void> writeSheetHtml(const SheetContent& content, const StillPictures& pictures,
                             const std::filesystem::path& file, const SheetStyle& style = {});

} // namespace latemile::ui
