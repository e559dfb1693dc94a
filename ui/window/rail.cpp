// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/rail.hpp"

#include "ui/theme/tokens.hpp"

#include <QButtonGroup>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

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

void Rail::addPage(int at, const QString& name)
{
    const auto above = std::ranges::count_if(
        m_group->buttons(), [this](QAbstractButton* b) { return m_group->id(b) < m_firstBelow; });
    m_column->insertWidget(static_cast<int>(above), makeButton(at, name));
}

void Rail::addBelow(int at, const QString& name)
{
    m_firstBelow = std::min(m_firstBelow, at);
    m_column->addWidget(makeButton(at, name));
}

QWidget* Rail::makeButton(int at, const QString& name)
{
    auto* button = new QPushButton(this);
    button->setText(name);
    button->setAccessibleName(name);
    button->setCheckable(true);
    button->setProperty("rank", "rail");
    button->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    m_group->addButton(button, at);
    return button;
}

void Rail::setKey(int at, const QString& key)
{
    if (QAbstractButton* button = m_group->button(at)) {
        const QString name = button->text();
        button->setToolTip(key.isEmpty() ? name : QStringLiteral("%1 (%2)").arg(name, key));
    }
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
        if (m_group->id(button) >= first && m_group->id(button) < m_firstBelow) {
            button->setEnabled(enabled);
        }
    }
}

} // namespace latemile::ui
