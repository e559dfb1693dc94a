// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"
#include "core/sheet/sheet_content.hpp"

#include <QImage>

#include <vector>

namespace latemile::ui {

/// One whole upright picture a still, in the order of SheetContent::stills; null where there is
/// none to show.
struct StillPictures {
    std::vector<QImage> images;
};

/// Decodes the frames of the stills. Opens each clip once; takes as long as that. A clip or frame
/// that cannot be read is an Error naming the file.
Outcome<StillPictures> loadStills(const SheetContent& content);

} // namespace latemile::ui
