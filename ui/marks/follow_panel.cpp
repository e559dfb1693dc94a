// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/follow_panel.hpp"

#include "ui/filming/work_bar.hpp"
#include "ui/keys/keys.hpp"
#include "ui/page/labels.hpp"
#include "ui/theme/tokens.hpp"

#include <QGridLayout>
#include <QListWidget>
#include <QPushButton>
#include <QToolButton>
#include <QVBoxLayout>

#include <utility>

namespace latemile::ui {

FollowPanel::FollowPanel(Keys& keys, QWidget* parent)
    : QWidget(parent), m_keys(keys), m_propose(new QPushButton(this)),
      m_follow(new QPushButton(this)), m_work(new WorkBar(this)), m_told(plainLabel({}, this)),
      m_open(new QToolButton(this)), m_list(new QListWidget(this))
{
    m_told->setWordWrap(true);
    m_open->setText(tr("List"));
    m_open->setToolTip(tr("What it says, one by one"));
    m_open->setCheckable(true);
    m_list->setAccessibleName(tr("What to look at"));
    m_list->setWordWrap(true);
    m_list->setTextElideMode(Qt::ElideNone);
    m_list->setFixedHeight(13 * gridStep);
    auto* grid = new QGridLayout;
    grid->setSpacing(gridStep / 2);
    const auto add = [&](QPushButton* button, const char* id, const QString& text, int row,
                         int column, auto wanted) {
        keys.label(*button, id, text);
        connect(button, &QPushButton::clicked, this, wanted);
        grid->addWidget(button, row, column);
    };
    add(m_propose, "marks.propose", tr("Propose landmarks"), 0, 0, &FollowPanel::proposeWanted);
    add(new QPushButton(this), "marks.exchange_legs", tr("Exchange legs"), 0, 1,
        &FollowPanel::exchangeWanted);
    add(new QPushButton(this), "marks.find_contacts", tr("Find contacts"), 1, 0,
        &FollowPanel::contactsWanted);
    add(new QPushButton(this), "marks.accept_contacts", tr("Accept all"), 1, 1,
        &FollowPanel::acceptContactsWanted);
    add(new QPushButton(this), "marks.feet", tr("Both feet"), 2, 0, &FollowPanel::feetWanted);
    add(m_follow, "marks.follow", tr("Follow marks"), 2, 1, &FollowPanel::followWanted);
    auto* line = new QHBoxLayout;
    line->setSpacing(gridStep);
    line->addWidget(m_told, 1);
    line->addWidget(m_open, 0, Qt::AlignTop);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep / 2);
    column->addWidget(m_work);
    column->addLayout(line);
    column->addWidget(m_list);
    column->addLayout(grid);
    connect(m_open, &QToolButton::toggled, m_list, &QListWidget::setVisible);
    connect(m_list, &QListWidget::currentRowChanged, this, [this](int row) {
        if (row >= 0 && row < static_cast<int>(m_frames.size())) {
            emit frameWanted(m_frames[static_cast<std::size_t>(row)]);
        }
    });
    tell({}, "");
}

void FollowPanel::tell(const QString& sentence, const char* state, const QStringList& details,
                       std::vector<FrameNumber> frames)
{
    m_frames = std::move(frames);
    m_told->setText(sentence);
    setState(*m_told, state);
    m_told->setVisible(!sentence.isEmpty());
    m_open->setChecked(false);
    m_open->setVisible(!details.isEmpty());
    const QSignalBlocker quiet(m_list);
    m_list->clear();
    m_list->addItems(details);
    m_list->setCurrentRow(-1);
    m_list->hide();
}

QString FollowPanel::told() const
{
    return m_told->text();
}

QStringList FollowPanel::details() const
{
    QStringList details;
    for (int row = 0; row < m_list->count(); ++row) {
        details.append(m_list->item(row)->text());
    }
    return details;
}

void FollowPanel::setFollowed(bool followed)
{
    m_follow->setText(QStringLiteral("%1   %2").arg(
        followed ? tr("Follow again") : tr("Follow marks"), m_keys.textOf("marks.follow")));
}

void FollowPanel::setProposed(bool proposed)
{
    m_propose->setText(QStringLiteral("%1   %2").arg(
        proposed ? tr("Propose again") : tr("Propose landmarks"), m_keys.textOf("marks.propose")));
}

} // namespace latemile::ui
