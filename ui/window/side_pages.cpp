// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/side_pages.hpp"

#include "ui/athletes/sample_library.hpp"
#include "ui/help/help_page.hpp"
#include "ui/practice/practice_page.hpp"

#include <QListWidget>
#include <QStackedWidget>
#include <QVariant>

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

QUndoStack* SidePages::practiceHistory() const
{
    const bool inFront = m_practice != nullptr && m_stack.currentWidget() == m_practice;
    return inFront ? m_practice->history() : nullptr;
}

void SidePages::endPractice()
{
    emit left();
    m_practice->deleteLater();
    m_practice = nullptr;
}

} // namespace latemile::ui
