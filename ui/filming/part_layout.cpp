// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/part_layout.hpp"

#include "ui/theme/tokens.hpp"

#include <QHBoxLayout>
#include <QVBoxLayout>

namespace latemile::ui {

QHBoxLayout* rowIn(QWidget* widget)
{
    auto* row = new QHBoxLayout(widget);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(gridStep / 2);
    return row;
}

QVBoxLayout* columnIn(QWidget* widget)
{
    auto* column = new QVBoxLayout(widget);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep);
    return column;
}

} // namespace latemile::ui
