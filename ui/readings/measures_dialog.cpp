// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/readings/measures_dialog.hpp"

#include "ui/page/labels.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/icons.hpp"
#include "ui/theme/tokens.hpp"

#include <QDialogButtonBox>
#include <QHBoxLayout>
#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>

#include <utility>

namespace latemile::ui {

MeasuresDialog::MeasuresDialog(MeasureOrder order, OwnMeasures own, QWidget* parent)
    : QDialog(parent), m_own(std::move(own)), m_list(new QListWidget(this))
{
    setWindowTitle(tr("Measures shown"));
    resize(420, 560);
    m_list->setAccessibleName(tr("Measures"));
    m_list->setDragDropMode(QAbstractItemView::InternalMove);
    auto* told = quietLabel(tr("Tick what the table shows (Space); drag to put in order."), this);
    told->setWordWrap(true);
    auto* side = new QHBoxLayout;
    side->setSpacing(gridStep / 2);
    const auto add = [&](const QString& icon, const QString& text, int way) {
        auto* button = new QPushButton(iconNamed(icon), text, this);
        button->setAutoDefault(false);
        connect(button, &QPushButton::clicked, this, [this, way] { move(way); });
        side->addWidget(button);
    };
    add(QStringLiteral("up"), tr("Up"), -1);
    add(QStringLiteral("down"), tr("Down"), 1);
    side->addStretch();
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel, this);
    auto* reset = buttons->addButton(tr("All as at first"), QDialogButtonBox::ResetRole);
    connect(reset, &QPushButton::clicked, this, [this] { fill({}); });
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(2 * gridStep, 2 * gridStep, 2 * gridStep, 2 * gridStep);
    column->setSpacing(gridStep);
    column->addWidget(told);
    column->addWidget(m_list, 1);
    column->addLayout(side);
    column->addWidget(buttons);
    fill(order);
}

void MeasuresDialog::fill(const MeasureOrder& order)
{
    m_list->clear();
    for (const Measure* measure : order.all(m_own)) {
        auto* item = new QListWidgetItem(fromUtf8(measure->name), m_list);
        item->setData(Qt::UserRole, fromUtf8(measure->id));
        item->setCheckState(order.isHidden(*measure) ? Qt::Unchecked : Qt::Checked);
    }
    m_list->setCurrentRow(0);
}

void MeasuresDialog::move(int way)
{
    const int row = m_list->currentRow();
    const int to = row + way;
    if (row < 0 || to < 0 || to >= m_list->count()) {
        return;
    }
    QListWidgetItem* item = m_list->takeItem(row);
    m_list->insertItem(to, item);
    m_list->setCurrentRow(to);
}

MeasureOrder MeasuresDialog::order() const
{
    MeasureOrder order;
    QStringList ids;
    for (int row = 0; row < m_list->count(); ++row) {
        const QListWidgetItem* item = m_list->item(row);
        const QString id = item->data(Qt::UserRole).toString();
        ids.append(id);
        order.setHidden(id, item->checkState() != Qt::Checked);
    }
    order.setOrder(ids);
    return order;
}

} // namespace latemile::ui
