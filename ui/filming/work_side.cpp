// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/work_side.hpp"

#include "ui/theme/tokens.hpp"

#include <QButtonGroup>
#include <QHBoxLayout>
#include <QScrollArea>
#include <QStackedWidget>
#include <QToolButton>

namespace latemile::ui {

WorkSide::WorkSide(QWidget* parent)
    : QWidget(parent), m_group(new QButtonGroup(this)), m_buttons(new QWidget(this)),
      m_stack(new QStackedWidget(this))
{
    setFixedWidth(48 * gridStep);
    m_buttons->setAccessibleName(tr("Parts of the description"));
    auto* row = new QHBoxLayout(m_buttons);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(gridStep / 2);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(2 * gridStep);
    column->addWidget(m_buttons);
    column->addWidget(m_stack, 1);
    connect(m_group, &QButtonGroup::idClicked, this, &WorkSide::setPart);
}

void WorkSide::addPart(const QString& name, QWidget* part)
{
    auto* inner = new QWidget(this);
    inner->setProperty("rank", "page");
    auto* column = new QVBoxLayout(inner);
    column->setContentsMargins(0, 0, gridStep, 0);
    column->addWidget(part);
    auto* scroll = new QScrollArea(this);
    scroll->setWidget(inner);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setFocusPolicy(Qt::NoFocus);
    m_stack->addWidget(scroll);
    auto* button = new QToolButton(m_buttons);
    button->setText(name);
    button->setCheckable(true);
    button->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    m_group->addButton(button, static_cast<int>(m_entries.size()));
    m_buttons->layout()->addWidget(button);
    m_entries.push_back({name, button});
    if (m_entries.size() == 1) {
        button->setChecked(true);
    }
}

void WorkSide::setPart(int at)
{
    m_stack->setCurrentIndex(at);
    m_group->button(at)->setChecked(true);
}

int WorkSide::part() const
{
    return m_stack->currentIndex();
}

void WorkSide::nextPart()
{
    setPart((part() + 1) % m_stack->count());
}

void WorkSide::setSign(int at, const QString& sign)
{
    const Entry& entry = m_entries[static_cast<std::size_t>(at)];
    entry.button->setText(sign.isEmpty() ? entry.name
                                         : QStringLiteral("%1  %2").arg(entry.name, sign));
}

} // namespace latemile::ui
