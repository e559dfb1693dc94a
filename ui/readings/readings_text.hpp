// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

class QAbstractItemModel;

namespace latemile::ui {

/// A table with its headers as lines of tabs, for pasting into a letter or a spreadsheet.
[[nodiscard]] QString tabbedText(const QAbstractItemModel& model);

} // namespace latemile::ui
