// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/readings/readings_text.hpp"

#include <QAbstractItemModel>
#include <QStringList>

namespace latemile::ui {

QString tabbedText(const QAbstractItemModel& model)
{
    QStringList lines;
    QStringList head{QString()};
    for (int column = 0; column < model.columnCount(); ++column) {
        head.append(model.headerData(column, Qt::Horizontal).toString());
    }
    lines.append(head.join(u'\t'));
    for (int row = 0; row < model.rowCount(); ++row) {
        QStringList cells{model.headerData(row, Qt::Vertical).toString()};
        for (int column = 0; column < model.columnCount(); ++column) {
            cells.append(model.index(row, column).data().toString());
        }
        lines.append(cells.join(u'\t'));
    }
    return lines.join(u'\n') + u'\n';
}

} // namespace latemile::ui
