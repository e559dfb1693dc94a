// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"
#include "core/sheet/sheet_content.hpp"
#include "ui/sheet/sheet_style.hpp"
#include "ui/sheet/still_pictures.hpp"

#include <QImage>

#include <filesystem>

namespace latemile::ui {

/// The sheet as one page of PDF: text and lines as such, fonts embedded. The file appears whole or
/// not at all; one that stood there stays when the new one cannot be written. Its metadata name
/// Latemile and the filming date, nobody and no device. Needs a QGuiApplication.
Outcome<void> writeSheetPdf(const SheetContent& content, const StillPictures& pictures,
                            const std::filesystem::path& file, const SheetStyle& style = {});

/// The sheet as a picture of 200 dots per inch, written likewise.
Outcome<void> writeSheetPng(const SheetContent& content, const StillPictures& pictures,
                            const std::filesystem::path& file, const SheetStyle& style = {});

/// By the ending of its name, lower case or upper: ".png" a picture, ".html" a page to be read on a
/// screen (sheet_html), else PDF.
Outcome<void> writeSheet(const SheetContent& content, const StillPictures& pictures,
                         const std::filesystem::path& file, const SheetStyle& style = {});

/// The picture writeSheetPng writes: A4 1654 x 2339, Letter 1700 x 2200 pixels.
[[nodiscard]] QImage sheetImage(const SheetContent& content, const StillPictures& pictures,
                                const SheetStyle& style, double dotsPerInch = 200.0);

} // namespace latemile::ui
