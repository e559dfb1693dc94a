// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace latemile::ui {

class MainWindow;

/// The menu bar: everything that is not the work of one page, with its keys.
void buildMenus(MainWindow& window);

} // namespace latemile::ui
