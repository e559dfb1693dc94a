// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/rail.hpp"

#include "ui/theme/tokens.hpp"

#include <QButtonGroup>
#include <QPushButton>
#include <QVBoxLayout>

namespace latemile::ui {

Rail::Rail(QWidget* parent)
    : QWidget(parent), m_group(new QButtonGroup(this)), m_column(new QVBoxLayout(this))
{
    setProperty("rank", "rail");
    setAttribute(Qt::WA_StyledBackground);
    setFixedWidth(20 * gridStep);
    m_column->setContentsMargins(gridStep, gridStep, gridStep, gridStep);
    m_column->setSpacing(gridStep / 2);
    m_column->addStretch();
    connect(m_group, &QButtonGroup::idClicked, this, &Rail::pageWanted);
}

void Rail::addPage(int at, const QString& name, const QString& key)
{
    auto* button = new QPushButton(this);
    button->setText(name);
    button->setToolTip(QStringLiteral("%1  %2").arg(name, key));
    button->setAccessibleName(name);
    button->setCheckable(true);
    button->setProperty("rank", "rail");
    button->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    m_group->addButton(button, at);
    m_column->insertWidget(m_column->count() - 1, button);
}

void Rail::setPage(int at)
{
    if (QAbstractButton* button = m_group->button(at)) {
        button->setChecked(true);
    }
}

void Rail::setEnabledFrom(int first, bool enabled)
{
    for (QAbstractButton* button : m_group->buttons()) {
        if (m_group->id(button) >= first) {
            button->setEnabled(enabled);
        }
    }
}

} // namespace latemile::ui
