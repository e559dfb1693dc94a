// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/session_pages.hpp"

#include "ui/page/reach.hpp"
#include "ui/window/page_list.hpp"

#include <QStackedWidget>

#include <algorithm>

namespace latemile::ui {

SessionPages::SessionPages(QStackedWidget& stack) : m_stack(stack), m_pages(pageList().size()) {}

void SessionPages::show(int at, const PageContext& context)
{
    const auto place = static_cast<std::size_t>(at);
    QWidget*& page = m_pages[place];
    if (page == nullptr) {
        const PageEntry& entry = pageList()[place];
        page = entry.make(context, &m_stack);
        // Keys of a page work as soon as it is shown, without a click first.
        page->setFocusPolicy(Qt::ClickFocus);
        makeReachable(*page, nameOf(entry));
        m_stack.addWidget(page);
    }
    m_stack.setCurrentWidget(page);
    page->setFocus();
}

void SessionPages::drop()
{
    for (QWidget*& page : m_pages) {
        delete page;
        page = nullptr;
    }
}

int SessionPages::placeOf(const QString& id)
{
    const auto list = pageList();
    const auto found = std::ranges::find_if(
        list, [&id](const PageEntry& entry) { return id == QLatin1String(entry.id); });
    return found == list.end() ? -1 : static_cast<int>(found - list.begin());
}

QString SessionPages::idOf(int at)
{
    return at < 0 ? QStringLiteral("athletes")
                  : QString::fromLatin1(pageList()[static_cast<std::size_t>(at)].id);
}

} // namespace latemile::ui
