// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/page/page_context.hpp"

#include <QString>

#include <vector>

class QStackedWidget;
class QWidget;

namespace latemile::ui {

/// The pages of a session by their place in the page list; each is made when it is first shown.
class SessionPages {
public:
    explicit SessionPages(QStackedWidget& stack); ///< must outlive it

    void show(int at, const PageContext& context);
    void drop(); ///< before the session goes that they show

    /// -1 where no page of a session has the id.
    [[nodiscard]] static int placeOf(const QString& id);
    [[nodiscard]] static QString idOf(int at); ///< "athletes" for -1

private:
    QStackedWidget& m_stack;
    std::vector<QWidget*> m_pages; ///< as the page list; null: not made yet
};

} // namespace latemile::ui
