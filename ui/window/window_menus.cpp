// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/window_menus.hpp"

#include "ui/athletes/athletes_page.hpp"
#include "ui/keys/keys_dialog.hpp"
#include "ui/theme/theme.hpp"
#include "ui/window/exchange_menu.hpp"
#include "ui/window/main_window.hpp"
#include "ui/window/page_list.hpp"

#include <QActionGroup>
#include <QApplication>
#include <QMenu>
#include <QMenuBar>
#include <QSettings>

namespace latemile::ui {
namespace {

void addThemes(QMenu& menu, MainWindow& window)
{
    auto* group = new QActionGroup(&menu);
    const ThemeChoice now = themeNamed(QSettings().value(QStringLiteral("theme")).toString())
                                .value_or(ThemeChoice::System);
    const auto add = [&](const QString& name, ThemeChoice choice) {
        QAction* action = menu.addAction(name);
        action->setCheckable(true);
        action->setChecked(choice == now);
        group->addAction(action);
        QObject::connect(action, &QAction::triggered, &window, [choice] {
            QSettings().setValue(QStringLiteral("theme"), nameOf(choice));
            applyTheme(*qApp, choice);
        });
    };
    add(MainWindow::tr("Theme of the system"), ThemeChoice::System);
    add(MainWindow::tr("Light theme"), ThemeChoice::Light);
    add(MainWindow::tr("Dark theme"), ThemeChoice::Dark);
}

void addScales(QMenu& menu, MainWindow& window)
{
    auto* group = new QActionGroup(&menu);
    const int now = QSettings().value(QStringLiteral("scale"), 100).toInt();
    for (const int percent : {100, 125, 150, 175, 200}) {
        QAction* action = menu.addAction(MainWindow::tr("%1 % from the next start").arg(percent));
        action->setCheckable(true);
        action->setChecked(percent == now);
        group->addAction(action);
        QObject::connect(action, &QAction::triggered, &window,
                         [percent] { QSettings().setValue(QStringLiteral("scale"), percent); });
    }
}

} // namespace

void buildMenus(MainWindow& window)
{
    Keys& keys = window.keys();
    QMenu* file = window.menuBar()->addMenu(MainWindow::tr("&File"));
    file->addAction(keys.action("file.open", &window, [&window] { window.openByDialog(); }));
    file->addAction(
        keys.action("athletes.new", &window, [&window] { window.athletes().addNewAthlete(); }));
    file->addAction(
        keys.action("session.before_filming", &window, [&window] { window.askBeforeFilming(); }));
    file->addSeparator();
    addExchange(*file, window);
    file->addSeparator();
    file->addAction(keys.action("file.quit", &window, [&window] { window.close(); }));

    QMenu* edit = window.menuBar()->addMenu(MainWindow::tr("&Edit"));
    edit->addAction(keys.action("edit.undo", &window, [&window] { window.undo(); }));
    edit->addAction(keys.action("edit.redo", &window, [&window] { window.redo(); }));

    QMenu* view = window.menuBar()->addMenu(MainWindow::tr("&View"));
    view->addAction(keys.action("page.athletes", &window,
                                [&window] { window.showPage(QStringLiteral("athletes")); }));
    for (const PageEntry& entry : pageList()) {
        const QString id = QString::fromLatin1(entry.id);
        const QByteArray key = "page." + QByteArray(entry.id);
        view->addAction(
            keys.action(key.constData(), &window, [&window, id] { window.showPage(id); }));
    }
    view->addSeparator();
    view->addAction(keys.action("view.clip", &window, [&window] { window.nextClip(); }));
    view->addAction(keys.action("view.names", &window,
                                [&window] { window.setNamesHidden(!window.areNamesHidden()); }));
    view->addSeparator();
    addThemes(*view, window);
    addScales(*view->addMenu(MainWindow::tr("Size of everything")), window);

    QMenu* help = window.menuBar()->addMenu(MainWindow::tr("&Help"));
    help->addAction(keys.action("help.page", &window, [&window] { window.showHelp(); }));
    help->addAction(keys.action("help.keys", &window,
                                [&window] { KeysDialog(window.keys(), &window).exec(); }));
    help->addSeparator();
    QAction* sample = help->addAction(MainWindow::tr("Open the sample athlete"));
    QObject::connect(sample, &QAction::triggered, &window, [&window] { window.openSample(); });
    help->addAction(keys.action("help.tour", &window, [&window] { window.startTour(); }));
    help->addAction(keys.action("help.practice", &window, [&window] { window.showPractice(); }));
    help->addAction(keys.action("help.repeat", &window, [&window] { window.showRepeat(); }));
}

} // namespace latemile::ui
