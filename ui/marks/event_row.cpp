// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/event_row.hpp"

#include "ui/keys/keys.hpp"
#include "ui/marks/event_actions.hpp"
#include "ui/marks/marks_page.hpp"
#include "ui/marks/marks_words.hpp"
#include "ui/theme/tokens.hpp"

#include <QHBoxLayout>
#include <QPushButton>

namespace latemile::ui {

EventRow::EventRow(MarksPage& page, Keys& keys)
    : QWidget(&page), m_keys(keys), m_due(new QPushButton(this))
{
    auto* line = new QHBoxLayout(this);
    line->setContentsMargins(0, 0, 0, 0);
    line->setSpacing(gridStep / 2);
    const auto add = [&](const char* id, const QString& text, auto act) {
        auto* button = new QPushButton(this);
        keys.label(*button, id, text);
        connect(button, &QPushButton::clicked, &page, act);
        line->addWidget(button);
    };
    add("marks.left_contact", tr("Left contact"),
        [&page] { EventActions::contact(page, Foot::Left); });
    add("marks.left_toe_off", tr("toe-off"), [&page] { EventActions::toeOff(page, Foot::Left); });
    line->addSpacing(gridStep);
    add("marks.right_contact", tr("Right contact"),
        [&page] { EventActions::contact(page, Foot::Right); });
    add("marks.right_toe_off", tr("toe-off"), [&page] { EventActions::toeOff(page, Foot::Right); });
    line->addSpacing(gridStep);
    line->addWidget(m_due);
    line->addStretch();
    keys.label(*m_due, "marks.event_due");
    connect(m_due, &QPushButton::clicked, &page, [&page] { EventActions::eventDue(page); });
    connect(&keys, &Keys::changed, this, [this, &page] { tellDue(page.flow()); });
}

void EventRow::tellDue(const MarkingFlow& flow)
{
    const QString due = dueText(flow);
    m_due->setEnabled(!due.isEmpty());
    m_due->setText(
        QStringLiteral("%1   %2").arg(due.isEmpty() ? tr("Event due") : tr("Due: %1").arg(due),
                                      m_keys.textOf("marks.event_due")));
}

} // namespace latemile::ui
