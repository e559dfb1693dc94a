// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/page/reach.hpp"

#include <QAbstractItemView>
#include <QScrollArea>

namespace latemile::ui {

void makeReachable(QWidget& page, const QString& name)
{
    page.setAccessibleName(name);
    for (QAbstractItemView* view : page.findChildren<QAbstractItemView*>()) {
        view->setTabKeyNavigation(false);
    }
    for (QScrollArea* area : page.findChildren<QScrollArea*>()) {
        if (area->accessibleName().isEmpty()) {
            area->setAccessibleName(name);
        }
    }
}

} // namespace latemile::ui
