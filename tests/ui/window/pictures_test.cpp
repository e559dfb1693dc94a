// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/catch.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/athletes/athlete_dialog.hpp"
#include "ui/athletes/athletes_page.hpp"
#include "ui/athletes/consent_dialog.hpp"
#include "ui/athletes/screening_dialog.hpp"
#include "ui/keys/keys_dialog.hpp"
#include "ui/sheet_page/sheet_options.hpp"
#include "ui/sheet_page/sheet_page.hpp"
#include "ui/theme/theme.hpp"
#include "ui/tour/tour_strip.hpp"
#include "ui/window/grab.hpp"

#include <QApplication>
#include <QDir>

using namespace latemile;
using namespace latemile::ui;

namespace {

QString folder()
{
    const QString wanted = qEnvironmentVariable("LATEMILE_PICTURES", QStringLiteral("pictures"));
    QDir().mkpath(wanted);
    return wanted;
}

void keep(QWidget& widget, const QString& name)
{
    widget.show();
    QCoreApplication::processEvents();
    CHECK(widget.grab().save(QStringLiteral("%1/%2.png").arg(folder(), name)));
}

} // namespace

// Hidden: for the eye. LATEMILE_PICTURES=folder window_test "[pictures]" grabs what --grab does
// not reach: dialogs, the leaves of the sheet's options, practice, tour, an empty library.
TEST_CASE("dialogs and side pages as pictures", "[.][pictures]")
{
    for (const ThemeChoice theme : {ThemeChoice::Light, ThemeChoice::Dark}) {
        applyTheme(*qApp, theme);
        const QString end = u'-' + nameOf(theme);
        Athlete athlete;
        athlete.code = "MK-01";
        athlete.name = "Maximiliane-Katharina von und zu Hohenfels-Abernathy";
        Keys keys;
        AthleteDialog person(athlete, true, [](const Athlete&) { return Outcome<void>(); });
        keep(person, "athlete" + end);
        ConsentDialog consent(athlete);
        keep(consent, "consent" + end);
        ScreeningDialog questions(Screening{{"fever"}, "a cold since Monday"});
        keep(questions, "screening" + end);
        KeysDialog list(keys);
        keep(list, "keys" + end);
        AthletesPage empty;
        QTemporaryDir library;
        empty.setLibrary(library.path().toStdString());
        empty.resize(1100, 700);
        keep(empty, "athletes-empty" + end);

        WindowFixture fixture;
        MainWindow& window = fixture.openWindow(QStringLiteral("sheet"));
        settle(window, 8000);
        auto& sheet = dynamic_cast<SheetPage&>(*window.page());
        for (int leaf = 0; leaf < sheet.options().count(); ++leaf) {
            sheet.options().setCurrentIndex(leaf);
            keep(window, QStringLiteral("sheet-leaf-%1%2").arg(leaf).arg(end));
        }
        for (const char* topic :
             {"keys", "foot_ahead", "pelvic_drop", "step_rate", "head_forward"}) {
            window.showHelp(QString::fromLatin1(topic));
            keep(window, QStringLiteral("help-%1%2").arg(QLatin1String(topic), end));
        }
        window.showPractice();
        settle(window, 5000);
        keep(window, "practice" + end);
        window.tour().begin();
        window.tour().goTo(2);
        settle(window, 5000);
        keep(window, "tour" + end);
    }
    applyTheme(*qApp, ThemeChoice::Light);
}
