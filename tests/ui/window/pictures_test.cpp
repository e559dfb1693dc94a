// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/catch.hpp"
#include "tests/ui/window/marking_hands.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/athletes/athlete_dialog.hpp"
#include "ui/athletes/athletes_page.hpp"
#include "ui/athletes/consent_dialog.hpp"
#include "ui/athletes/screening_dialog.hpp"
#include "ui/help/help_page.hpp"
#include "ui/keys/keys_dialog.hpp"
#include "ui/marks/follow_panel.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/marks/marks_page.hpp"
#include "ui/marks/proposing.hpp"
#include "ui/own_measures/formula_field.hpp"
#include "ui/own_measures/own_measure_form.hpp"
#include "ui/own_measures/own_measures_dialog.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"
#include "ui/practice/practice_page.hpp"
#include "ui/practice/repeat_page.hpp"
#include "ui/sheet_page/sheet_options.hpp"
#include "ui/sheet_page/sheet_page.hpp"
#include "ui/theme/theme.hpp"
#include "ui/tour/tour_strip.hpp"
#include "ui/window/grab.hpp"
#include "ui/window/side_pages.hpp"

#include <QApplication>
#include <QDir>
#include <QToolButton>

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

// Hidden: what is looked at at 100, 125 and 200 % (QT_SCALE_FACTOR) with a name of any length.
TEST_CASE("wide pages with a long name as pictures", "[.][wide-pictures]")
{
    for (const ThemeChoice theme : {ThemeChoice::Light, ThemeChoice::Dark}) {
        applyTheme(*qApp, theme);
        const QString end = u'-' + nameOf(theme);
        WindowFixture fixture;
        fixture.addLaterVisits();
        const auto file = fixture.sessionFolder().parent_path() / "athlete.json";
        Athlete athlete = readAthlete(file).value();
        athlete.name = "Maximiliane-Katharina von und zu Hohenfels-Abernathy of Strathkinness";
        REQUIRE(writeAthlete(athlete, file));
        MainWindow& window = fixture.openWindow(QStringLiteral("filming"));
        press(*window.page(), Qt::Key_U);
        settle(window, 4000);
        keep(window, "set-up" + end);
        window.showPage(QStringLiteral("compare"));
        const auto buttons = window.page()->findChildren<QToolButton*>();
        const auto third =
            std::ranges::find(buttons, QStringLiteral("Third clip"), &QToolButton::text);
        REQUIRE(third != buttons.end());
        (*third)->setChecked(true);
        settle(window, 8000);
        keep(window, "three-clips" + end);
        window.showPage(QStringLiteral("sheet"));
        settle(window, 8000);
        keep(window, "sheet" + end);
        window.showPractice();
        PracticePage& practice = *window.sidePages().practice();
        REQUIRE(waitUntil([&] { return practice.session()->clips().front()->isOpen(); }));
        practice.setTruthShown(true);
        settle(window, 5000);
        keep(window, "practice" + end);
        emit practice.left();
        window.showRepeat();
        RepeatPage& repeat = *window.sidePages().repeat();
        REQUIRE(waitUntil([&] { return !repeat.marks()->flow().open().empty(); }));
        settle(window, 5000);
        keep(window, "repeat" + end);
        const auto truth = truthOf("fresh");
        MarksPage& marks = *repeat.marks();
        for (int placed = 0; placed < 200 && !marks.flow().open().empty(); ++placed) {
            if (!marks.flow().pending()) {
                press(marks.view(), Qt::Key_N);
            }
            waitForPicture(marks);
            placeByKeys(marks, nearPoint(truth, marks.player().frame().value,
                                         std::string(nameOf(*marks.flow().pending()))));
        }
        repeat.finish();
        settle(window, 3000);
        keep(window, "repeat-result" + end);
    }
    applyTheme(*qApp, ThemeChoice::Light);
}

// Hidden: the dialog of own measures, filled, faulty and refused.
TEST_CASE("own measures as pictures", "[.][own-pictures]")
{
    for (const ThemeChoice theme : {ThemeChoice::Light, ThemeChoice::Dark}) {
        applyTheme(*qApp, theme);
        const QString end = u'-' + nameOf(theme);
        WindowFixture fixture;
        MainWindow& window = fixture.openWindow(QStringLiteral("readings"));
        REQUIRE(window.session()->keepOwnMeasures(OwnMeasures::from(exampleOwnMeasures()).value()));
        settle(window, 8000);
        keep(window, "own-readings" + end);
        OwnMeasuresDialog dialog(*window.session(), window.session()->clips().front());
        keep(dialog, "own-sound" + end);
        dialog.form().formula().setFormula(
            "100 * (distance wrist to shoulder at mid-stance) / lenght of leg");
        (void)waitUntil([&] { return dialog.form().told().contains(QStringLiteral("column")); });
        keep(dialog, "own-fault" + end);
        dialog.reject();
        keep(dialog, "own-cancel" + end);
        window.showHelp(QStringLiteral("own_measures"));
        keep(window, "own-help" + end);
    }
    applyTheme(*qApp, ThemeChoice::Light);
}

// Hidden: the picture of the help's topic on proposals, and the marks page with them.
TEST_CASE("proposals on the sample clip as pictures", "[.][proposal-pictures]")
{
    WindowFixture fixture;
    fixture.makeUnmarked();
    fixture.shorten(240);
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    auto& page = dynamic_cast<MarksPage&>(*window.page());
    waitForPicture(page);
    const auto grab = [&](const QString& name) {
        for (const ThemeChoice theme : {ThemeChoice::Dark, ThemeChoice::Light}) {
            applyTheme(*qApp, theme);
            settle(window, 4000);
            keep(window, name + u'-' + nameOf(theme));
        }
    };
    grab("propose-empty");
    page.proposing().askBox();
    keep(window, "propose-box");
    page.proposing().leaveBox();
    page.proposing().propose();
    settle(window, 3000);
    keep(window, "propose-busy");
    (void)waitUntil([&page] { return !page.flow().clip()->marking().stances.empty(); });
    press(page.view(), Qt::Key_A);
    waitForPicture(page);
    keep(window, "propose-first");
    for (int tries = 0; tries < 8 && page.proposing().isBusy(); ++tries) {
        (void)waitUntil([&page] { return !page.proposing().isBusy(); });
    }
    grab("propose-raw");
    press(page.view(), Qt::Key_N);
    waitForPicture(page);
    grab("propose-cells");
    press(page.view(), Qt::Key_Return, Qt::ShiftModifier);
    grab("propose-refused");
    window.selection().setPlace(std::nullopt);
    page.player().goTo({90});
    waitForPicture(page);
    page.view().fitPart({380, 90, 520, 560});
    QCoreApplication::processEvents();
    const QPixmap shot = page.view().grab(); // for the help at QT_SCALE_FACTOR=2
    const int side = shot.height();
    CHECK(shot.copy((shot.width() - side) / 2, 0, side, side).save(folder() + "/proposals.png"));
}

TEST_CASE("the help on proposals as a picture", "[.][help-pictures]")
{
    for (const ThemeChoice theme : {ThemeChoice::Light, ThemeChoice::Dark}) {
        applyTheme(*qApp, theme);
        const Keys keys;
        HelpPage help(keys);
        help.resize(1120, 760);
        help.show();
        help.showTopic(QStringLiteral("propose"));
        keep(help, QStringLiteral("help-propose-") + nameOf(theme));
    }
}
