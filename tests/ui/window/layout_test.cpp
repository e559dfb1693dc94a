// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/catch.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/athletes/athlete_dialog.hpp"
#include "ui/athletes/consent_dialog.hpp"
#include "ui/athletes/screening_dialog.hpp"
#include "ui/keys/keys_dialog.hpp"
#include "ui/tour/tour_strip.hpp"
#include "ui/window/grab.hpp"
#include "ui/window/page_list.hpp"

#include <QAbstractButton>
#include <QAbstractItemView>
#include <QAbstractSpinBox>
#include <QAccessible>
#include <QAccessibleInterface>
#include <QComboBox>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>

using namespace latemile;
using namespace latemile::ui;

namespace {

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

/// A label or a button that is not given the room its text takes.
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

bool isControl(const QWidget& widget)
{
    return dynamic_cast<const QAbstractButton*>(&widget) != nullptr ||
           dynamic_cast<const QComboBox*>(&widget) != nullptr ||
           (dynamic_cast<const QLabel*>(&widget) != nullptr) ||
           dynamic_cast<const QLineEdit*>(&widget) != nullptr;
}

/// Brothers in one layout that lie over each other.
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

/// Controls a screen reader would have no word for.
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

/// The same asked of the tree a screen reader walks: whatever can take the focus has a name.
void addNameless(QAccessibleInterface* face, int depth, QStringList& found)
{
    if (face == nullptr || !face->isValid() || depth > 24) {
        return;
    }
    const QAccessible::State state = face->state();
    // What a spin box or a date field is made of inside.
    const bool ofQt = face->object() != nullptr &&
                      face->object()->objectName().startsWith(QStringLiteral("qt_"));
    const bool cell = ofQt || face->role() == QAccessible::Cell || face->role() == QAccessible::ListItem;
    if (state.focusable && !state.invisible && !state.disabled && !cell &&
        face->text(QAccessible::Name).isEmpty()) {
        const auto* widget = dynamic_cast<QWidget*>(face->object());
        found.append(widget != nullptr ? describe(*widget)
                                       : QStringLiteral("role %1").arg(face->role()));
    }
    if (face->role() == QAccessible::Table || face->role() == QAccessible::List) {
        return; // its cells are its own
    }
    for (int child = 0; child < face->childCount(); ++child) {
        addNameless(face->child(child), depth + 1, found);
    }
}

QStringList namelessToReaders(QWidget& window)
{
    QStringList found;
    addNameless(QAccessible::queryAccessibleInterface(&window), 0, found);
    return found;
}

/// Tab goes down the dialog: a control never comes after one that stands wholly below it.
QStringList outOfOrder(QWidget& dialog)
{
    QStringList found;
    const QWidget* before = nullptr;
    for (QWidget* at = dialog.nextInFocusChain(); at != &dialog; at = at->nextInFocusChain()) {
        const bool stops = (at->focusPolicy() & Qt::TabFocus) != 0 && at->isVisible() &&
                           at->isEnabled() && at->focusProxy() == nullptr &&
                           dialog.isAncestorOf(at);
        if (!stops) {
            continue;
        }
        if (before != nullptr) {
            const QRect here(at->mapTo(&dialog, QPoint()), at->size());
            const QRect there(before->mapTo(&dialog, QPoint()), before->size());
            if (here.bottom() < there.top()) {
                found.append(describe(*at) + " after " + describe(*before));
            }
        }
        before = at;
    }
    return found;
}

void checkWhole(QWidget& page)
{
    CHECK(clippedIn(page).join(u'\n').toStdString() == "");
    CHECK(overlapsIn(page).join(u'\n').toStdString() == "");
    CHECK(namelessIn(page).join(u'\n').toStdString() == "");
    CHECK(namelessToReaders(page).join(u'\n').toStdString() == "");
    for (const QAbstractItemView* view : page.findChildren<QAbstractItemView*>()) {
        INFO(view->accessibleName().toStdString());
        CHECK_FALSE((view->isVisible() && view->tabKeyNavigation())); // Tab must lead out of it
    }
}

} // namespace

TEST_CASE("no page clips a label or lays controls over each other", "[ui][layout]")
{
    const QSize size = GENERATE(QSize(1280, 800), QSize(1920, 1080));
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    window.resize(size);
    QStringList pages{QStringLiteral("athletes")};
    for (const PageEntry& entry : pageList()) {
        pages.append(QString::fromLatin1(entry.id));
    }
    pages += {QStringLiteral("help"), QStringLiteral("practice"), QStringLiteral("tour")};
    for (const QString& page : pages) {
        if (page == QStringLiteral("practice")) {
            window.showPractice();
        } else if (page == QStringLiteral("tour")) {
            window.showPage(QStringLiteral("marks"));
            window.tour().begin();
        } else {
            window.showPage(page);
        }
        settle(window, 6000);
        INFO(page.toStdString() << " at " << size.width() << " x " << size.height());
        REQUIRE(window.size() == size);
        checkWhole(window);
    }
}

TEST_CASE("no dialog clips a label, is out of order for Tab or leaves a control nameless",
          "[ui][layout]")
{
    Athlete athlete;
    athlete.code = "MK-01";
    athlete.name = "Maximiliane-Katharina von und zu Hohenfels-Abernathy of Upper Strathkinness";
    Keys keys;
    AthleteDialog person(athlete, true, [](const Athlete&) { return Outcome<void>(); });
    ConsentDialog consent(athlete);
    ScreeningDialog questions(Screening{{"fever", "chest_pain"}, "a cold since Monday"});
    KeysDialog list(keys);
    for (QDialog* dialog : std::initializer_list<QDialog*>{&person, &consent, &questions, &list}) {
        dialog->show();
        QCoreApplication::processEvents();
        INFO(dialog->windowTitle().toStdString());
        checkWhole(*dialog);
        CHECK(outOfOrder(*dialog).join(u'\n').toStdString() == "");
        CHECK(dialog->height() <= 760); // fits a screen of 800 with its frame
        dialog->hide();
    }
}
