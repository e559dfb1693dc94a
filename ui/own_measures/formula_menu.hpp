// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

class QMenu;
class QWidget;

namespace latemile::ui {

class FormulaField;

/// All words of a formula to choose from, put into `field`. The owner is `parent`.
[[nodiscard]] QMenu* formulaMenu(FormulaField& field, QWidget* parent);

} // namespace latemile::ui
