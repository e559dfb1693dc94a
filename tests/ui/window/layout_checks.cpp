// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/window/layout_checks.hpp"

#include <QAbstractButton>
#include <QAbstractItemView>
#include <QAbstractSpinBox>
#include <QAccessible>
#include <QAccessibleInterface>
#include <QComboBox>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>

namespace latemile::ui {
namespace {

bool isControl(const QWidget& widget)
{
    return dynamic_cast<const QAbstractButton*>(&widget) != nullptr ||
           dynamic_cast<const QComboBox*>(&widget) != nullptr ||
           (dynamic_cast<const QLabel*>(&widget) != nullptr) ||
           dynamic_cast<const QLineEdit*>(&widget) != nullptr;
}

} // namespace

QString describe(const QWidget& widget)
{
    QString text = QString::fromLatin1(widget.metaObject()->className());
    if (const auto* label = dynamic_cast<const QLabel*>(&widget)) {
        text += QStringLiteral(" \"%1\"").arg(label->text().left(40));
    } else if (const auto* button = dynamic_cast<const QAbstractButton*>(&widget)) {
        text += QStringLiteral(" \"%1\"").arg(button->text());
    }
    return text;
}

QStringList clippedIn(const QWidget& page)
{
    QStringList clipped;
    for (const QWidget* widget : page.findChildren<QWidget*>()) {
        const auto* label = dynamic_cast<const QLabel*>(widget);
        const auto* button = dynamic_cast<const QAbstractButton*>(widget);
        if (!widget->isVisible() || (label == nullptr && button == nullptr) ||
            (label != nullptr && label->text().isEmpty())) {
            continue;
        }
        const bool wraps = label != nullptr && label->wordWrap();
        const int wanted = wraps ? 0 : widget->minimumSizeHint().width();
        const int high = wraps ? label->heightForWidth(label->width())
                               : (label != nullptr ? label->fontMetrics().height() : 0);
        if (widget->width() < wanted || widget->height() < high) {
            clipped.append(describe(*widget));
        }
    }
    return clipped;
}

QStringList overlapsIn(const QWidget& page)
{
    QStringList found;
    for (const QWidget* parent : page.findChildren<QWidget*>()) {
        const auto children = parent->findChildren<QWidget*>(Qt::FindDirectChildrenOnly);
        for (qsizetype a = 0; a < children.size(); ++a) {
            for (qsizetype b = a + 1; b < children.size(); ++b) {
                const bool both = children[a]->isVisible() && children[b]->isVisible() &&
                                  isControl(*children[a]) && isControl(*children[b]);
                if (both && children[a]->geometry().intersects(children[b]->geometry())) {
                    found.append(describe(*children[a]) + " over " + describe(*children[b]));
                }
            }
        }
    }
    return found;
}

QStringList namelessIn(const QWidget& page)
{
    QStringList nameless;
    for (QWidget* widget : page.findChildren<QWidget*>()) {
        const bool control = dynamic_cast<QAbstractButton*>(widget) != nullptr ||
                             dynamic_cast<QComboBox*>(widget) != nullptr ||
                             dynamic_cast<QAbstractSpinBox*>(widget) != nullptr ||
                             dynamic_cast<QAbstractItemView*>(widget) != nullptr;
        const bool ofQt = widget->objectName().startsWith(QStringLiteral("qt_"));
        // Parts of a table or of a closed drop-down list belong to what holds them.
        const bool part = dynamic_cast<QAbstractItemView*>(widget->parentWidget()) != nullptr ||
                          dynamic_cast<QHeaderView*>(widget) != nullptr;
        if (!widget->isVisible() || !control || ofQt || part) {
            continue;
        }
        QAccessibleInterface* face = QAccessible::queryAccessibleInterface(widget);
        if (face == nullptr || face->text(QAccessible::Name).isEmpty()) {
            nameless.append(describe(*widget));
        }
    }
    return nameless;
}

} // namespace latemile::ui
