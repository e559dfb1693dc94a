// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/side_pages.hpp"

#include "ui/athletes/sample_library.hpp"
#include "ui/help/help_page.hpp"
#include "ui/practice/practice_page.hpp"
#include "ui/practice/repeat_page.hpp"

#include <QListWidget>
#include <QStackedWidget>
#include <QVariant>

#include <utility>

namespace latemile::ui {

SidePages::SidePages(QStackedWidget& stack, Keys& keys, QObject* parent)
    : QObject(parent), m_stack(stack), m_keys(keys)
{
}

void SidePages::showHelp(const QString& topic)
{
    const QVariant about = m_stack.currentWidget()->property("helpTopic");
    if (m_help == nullptr) {
        m_help = new HelpPage(m_keys, &m_stack);
        m_stack.addWidget(m_help);
        connect(m_help, &HelpPage::left, this, &SidePages::left);
        connect(m_help, &HelpPage::keysWanted, this, &SidePages::keysWanted);
    }
    m_stack.setCurrentWidget(m_help);
    m_help->showTopic(topic.isEmpty() ? about.toString() : topic);
    m_help->list().setFocus();
}

void SidePages::showPractice()
{
    if (m_practice == nullptr) {
        m_practice = new PracticePage(sampleFolder(), m_keys, &m_stack);
        m_stack.addWidget(m_practice);
        connect(m_practice, &PracticePage::left, this, &SidePages::endPractice);
    }
    m_stack.setCurrentWidget(m_practice);
}

void SidePages::showRepeat(SessionDocument& session, ClipDocument& clip)
{
    if (m_repeat == nullptr) {
        m_repeat = new RepeatPage(session, clip, m_keys, &m_stack);
        m_stack.addWidget(m_repeat);
        connect(m_repeat, &RepeatPage::left, this, [this] {
            emit left();
            std::exchange(m_repeat, nullptr)->deleteLater(); // it is one of its buttons that asks
        });
    }
    m_stack.setCurrentWidget(m_repeat);
}

/// At once and not later: the page looks at a session that is about to go.
void SidePages::endRepeat()
{
    delete std::exchange(m_repeat, nullptr);
}

bool SidePages::hasOwnMarks() const
{
    const QWidget* front = m_stack.currentWidget();
    return front != nullptr && (front == m_practice || front == m_repeat);
}

QUndoStack* SidePages::ownHistory() const
{
    const QWidget* front = m_stack.currentWidget();
    if (m_practice != nullptr && front == m_practice) {
        return m_practice->history();
    }
    return m_repeat != nullptr && front == m_repeat ? m_repeat->history() : nullptr;
}

void SidePages::endPractice()
{
    emit left();
    m_practice->deleteLater();
    m_practice = nullptr;
}

} // namespace latemile::ui
