// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/keys/keys_dialog.hpp"

#include "ui/keys/key_table.hpp"
#include "ui/keys/keys.hpp"
#include "ui/theme/tokens.hpp"

#include <QCoreApplication>
#include <QDialogButtonBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeySequenceEdit>
#include <QLabel>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>

namespace latemile::ui {

KeysDialog::KeysDialog(Keys& keys, QWidget* parent)
    : QDialog(parent), m_keys(keys), m_table(new QTableWidget(this)),
      m_edit(new QKeySequenceEdit(this)), m_told(new QLabel(this))
{
    setWindowTitle(tr("Keys"));
    resize(560, 640);
    m_table->setColumnCount(3);
    m_table->setHorizontalHeaderLabels({tr("Where"), tr("What"), tr("Key")});
    m_table->verticalHeader()->hide();
    m_table->setSelectionBehavior(QAbstractItemView::SelectRows);
    m_table->setSelectionMode(QAbstractItemView::SingleSelection);
    m_table->setEditTriggers(QAbstractItemView::NoEditTriggers);
    m_table->setShowGrid(false);
    m_table->setTabKeyNavigation(false);
    m_table->setAccessibleName(tr("All keys"));
    m_edit->setAccessibleName(tr("New key for the chosen row"));
    m_told->setWordWrap(true);
    m_told->setProperty("state", "bad");

    auto* change = new QPushButton(tr("Use this key"), this);
    connect(change, &QPushButton::clicked, this, &KeysDialog::takeKey);
    auto* row = new QHBoxLayout;
    auto* name = new QLabel(tr("New key"), this);
    name->setBuddy(m_edit);
    row->addWidget(name);
    row->addWidget(m_edit, 1);
    row->addWidget(change);

    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close, this);
    auto* reset = buttons->addButton(tr("All as at first"), QDialogButtonBox::ResetRole);
    connect(reset, &QPushButton::clicked, this, [this] {
        m_keys.resetAll();
        fill();
    });
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);

    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(2 * gridStep, 2 * gridStep, 2 * gridStep, 2 * gridStep);
    column->setSpacing(gridStep);
    column->addWidget(m_table, 1);
    auto* arrows = new QLabel(tr("On the picture, arrow keys move the crosshair or the chosen mark "
                                 "by 1 pixel, with Shift by 0.1, with Alt by 10; with "
                                 "neither they step frames."),
                              this);
    arrows->setWordWrap(true);
    arrows->setProperty("rank", "quiet");
    column->addWidget(arrows);
    column->addLayout(row);
    column->addWidget(m_told);
    column->addWidget(buttons);
    connect(m_table, &QTableWidget::itemSelectionChanged, this, &KeysDialog::showRow);
    fill();
}

void KeysDialog::fill()
{
    const auto table = keyTable();
    m_table->setRowCount(static_cast<int>(table.size()));
    int row = 0;
    for (const KeyEntry& entry : table) {
        const QString id = QString::fromLatin1(entry.id);
        auto* where = new QTableWidgetItem(QCoreApplication::translate("Keys", entry.group));
        where->setData(Qt::UserRole, id);
        m_table->setItem(row, 0, where);
        m_table->setItem(row, 1, new QTableWidgetItem(Keys::nameOf(id)));
        m_table->setItem(row, 2,
                         new QTableWidgetItem(m_keys.of(id).toString(QKeySequence::NativeText)));
        ++row;
    }
    m_table->resizeColumnsToContents();
    m_table->horizontalHeader()->setSectionResizeMode(1, QHeaderView::Stretch);
}

void KeysDialog::showRow()
{
    m_told->clear();
    if (const auto* item = m_table->item(m_table->currentRow(), 0)) {
        m_edit->setKeySequence(m_keys.of(item->data(Qt::UserRole).toString()));
    }
}

void KeysDialog::takeKey()
{
    const auto* item = m_table->item(m_table->currentRow(), 0);
    if (item == nullptr) {
        m_told->setText(tr("Choose a row first."));
        return;
    }
    const QString id = item->data(Qt::UserRole).toString();
    const QKeySequence keys = m_edit->keySequence();
    if (const QString other = m_keys.conflict(id, keys); !other.isEmpty()) {
        m_told->setText(tr("%1 is the key of \"%2\": choose another, or change that one first.")
                            .arg(keys.toString(QKeySequence::NativeText), other));
        return;
    }
    m_keys.set(id, keys);
    m_told->clear();
    m_table->item(m_table->currentRow(), 2)->setText(keys.toString(QKeySequence::NativeText));
}

} // namespace latemile::ui
