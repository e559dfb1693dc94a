// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/rail.hpp"

#include "ui/keys/keys.hpp"
#include "ui/theme/tokens.hpp"
#include "ui/window/page_list.hpp"

#include <QButtonGroup>
#include <QPushButton>
#include <QVBoxLayout>

namespace latemile::ui {

Rail::Rail(const Keys& keys, QWidget* parent)
    : QWidget(parent), m_keys(keys), m_group(new QButtonGroup(this))
{
    setProperty("rank", "rail");
    setAttribute(Qt::WA_StyledBackground);
    setFixedWidth(20 * gridStep);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(gridStep, gridStep, gridStep, gridStep);
    column->setSpacing(gridStep / 2);
    column->addWidget(makeButton(athletes, tr("Athletes")));
    int at = athletes;
    for (const PageEntry& entry : pageList()) {
        column->addWidget(makeButton(++at, nameOf(entry)));
    }
    column->addStretch();
    column->addWidget(makeButton(help, tr("Help")));
    tellKeys();
    connect(&keys, &Keys::changed, this, &Rail::tellKeys);
    connect(m_group, &QButtonGroup::idClicked, this, &Rail::pageWanted);
}

void Rail::tellKeys()
{
    tellKey(athletes, QStringLiteral("page.athletes"));
    int at = athletes;
    for (const PageEntry& entry : pageList()) {
        tellKey(++at, QStringLiteral("page.") + QLatin1String(entry.id));
    }
    tellKey(help, QStringLiteral("help.page"));
}

void Rail::tellKey(int at, const QString& id)
{
    QAbstractButton* button = m_group->button(at);
    const QString key = m_keys.of(id).toString(QKeySequence::NativeText);
    button->setToolTip(key.isEmpty() ? button->text()
                                     : QStringLiteral("%1 (%2)").arg(button->text(), key));
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

void Rail::setPage(int at)
{
    if (QAbstractButton* button = m_group->button(at)) {
        button->setChecked(true);
    }
}

void Rail::setSessionOpen(bool open)
{
    for (QAbstractButton* button : m_group->buttons()) {
        const int at = m_group->id(button);
        if (at != athletes && at != help) {
            button->setEnabled(open);
        }
    }
}

} // namespace latemile::ui
