// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/catch.hpp"
#include "tests/ui/window/layout_checks.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/athletes/athlete_dialog.hpp"
#include "ui/athletes/consent_dialog.hpp"
#include "ui/athletes/screening_dialog.hpp"
#include "ui/keys/keys_dialog.hpp"
#include "ui/own_measures/own_measures_dialog.hpp"
#include "ui/tour/tour_strip.hpp"
#include "ui/window/grab.hpp"

#include <QAbstractItemView>
#include <QAccessible>
#include <QAccessibleInterface>
#include <QListWidget>
#include <QPushButton>

using namespace latemile;
using namespace latemile::ui;

namespace {

/// The same asked of the tree a screen reader walks: whatever can take the focus has a name.
void addNameless(QAccessibleInterface* face, int depth, QStringList& found)
{
    if (face == nullptr || !face->isValid() || depth > 24) {
        return;
    }
    const QAccessible::State state = face->state();
    // What a spin box or a date field is made of inside.
    const bool ofQt =
        face->object() != nullptr && face->object()->objectName().startsWith(QStringLiteral("qt_"));
    const bool cell =
        ofQt || face->role() == QAccessible::Cell || face->role() == QAccessible::ListItem;
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
    QStringList pages = allPages();
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

TEST_CASE("the dialog of own measures is whole and in order, empty and filled", "[ui][layout]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("readings"));
    OwnMeasuresDialog dialog(*window.session(), window.session()->clips().front());
    dialog.show();
    for (const bool filled : {false, true}) {
        if (filled) {
            dialog.findChildren<QPushButton*>().front()->click(); // Add
        }
        QCoreApplication::processEvents();
        INFO(filled);
        CHECK(dialog.list().count() == (filled ? 1 : 0));
        checkWhole(dialog);
        CHECK(outOfOrder(dialog).join(u'\n').toStdString() == "");
        CHECK(dialog.height() <= 760);
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
