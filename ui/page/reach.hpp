// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

class QWidget;

namespace latemile::ui {

/// Makes a page whole for who uses no mouse: Tab leaves its tables, in which the arrows move, and
/// parts that scroll bear the page's name where they have none of their own.
void makeReachable(QWidget& page, const QString& name);

} // namespace latemile::ui
