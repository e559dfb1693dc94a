// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/catch.hpp"
#include "tests/project_folders.hpp"
#include "tests/ui/window/marking_hands.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/athletes/athlete_dialog.hpp"
#include "ui/athletes/athletes_page.hpp"
#include "ui/athletes/screening_dialog.hpp"
#include "ui/compare/compare_page.hpp"
#include "ui/document/commands/add_clip.hpp"
#include "ui/filming/filming_page.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/refilms/refilms_maker.hpp"
#include "ui/refilms/refilms_page.hpp"
#include "ui/sheet_page/sheet_maker.hpp"
#include "ui/sheet_page/sheet_page.hpp"

#include <QAbstractItemModel>
#include <QCheckBox>
#include <QDoubleSpinBox>
#include <QLineEdit>
#include <QProcess>
#include <QPushButton>
#include <QTableView>
#include <QTest>

using namespace latemile;
using namespace latemile::ui;

namespace {

const std::string visit = (tests::sourceFolder() / "sample_clips/ilse-varga/2026-08-29").string();

template <class Widget>
Widget& named(const QWidget& parent, const char* name)
{
    for (Widget* widget : parent.findChildren<Widget*>()) {
        if (widget->accessibleName() == QLatin1String(name)) {
            return *widget;
        }
    }
    FAIL("nothing is named " << name);
    throw 0;
}

template <class Button = QPushButton>
Button& buttonOf(const QWidget& parent, const char* text)
{
    for (Button* button : parent.findChildren<Button*>()) {
        if (button->text() == QLatin1String(text)) {
            return *button;
        }
    }
    FAIL("no button " << text);
    throw 0;
}

/// A new athlete with consent, and a session begun today, from the keyboard.
void beginSession(MainWindow& window)
{
    press(window, Qt::Key_N, Qt::ControlModifier);
    auto* dialog = window.findChild<AthleteDialog*>();
    REQUIRE(dialog != nullptr);
    const auto fields = dialog->findChildren<QLineEdit*>();
    QTest::keyClicks(fields[0], QStringLiteral("Nora Lind"));
    QTest::keyClicks(fields[1], QStringLiteral("NL-1"));
    buttonOf<QCheckBox>(*dialog, "Agreed to be filmed and shown on a sheet").setChecked(true);
    QTest::keyClicks(&named<QLineEdit>(*dialog, "Consent given by"), QStringLiteral("Nora Lind"));
    QTest::keyClick(dialog, Qt::Key_Return);
    buttonOf(window.athletes(), "New session today").click();
    auto* questions = window.findChild<ScreeningDialog*>();
    REQUIRE(questions != nullptr);
    QTest::keyClick(questions, Qt::Key_Return);
    REQUIRE(window.session() != nullptr);
    CHECK(window.session()->about().screening == Screening{});
}

/// Drags from one place of the picture to another.
void dragLine(FrameView& view, PixelPoint from, PixelPoint to)
{
    const auto onScreen = [&](PixelPoint at) {
        return (view.map().toDevice(at) / view.devicePixelRatioF()).toPoint();
    };
    QTest::mousePress(&view, Qt::LeftButton, {}, onScreen(from));
    QTest::mouseMove(&view, onScreen({(from.u + to.u) / 2, (from.v + to.v) / 2}));
    QTest::mouseMove(&view, onScreen(to));
    QTest::mouseRelease(&view, Qt::LeftButton, {}, onScreen(to));
}

/// The clip, and scale and plumb line drawn from end to end of the pole that stands in it.
void importFresh(MainWindow& window, const nlohmann::json& truth)
{
    window.showPage(QStringLiteral("filming"));
    auto& page = dynamic_cast<FilmingPage&>(*window.page());
    page.addFiles({QStringLiteral("%1/clips/fresh.mp4").arg(QString::fromStdString(visit))});
    REQUIRE(waitUntil([&] {
        return window.session()->clips().size() == 1 && window.session()->clips()[0]->isOpen() &&
               !page.view().pictureSize().isEmpty();
    }));
    ClipDocument& clip = *window.session()->clips()[0];
    const auto& pole = truth["scale"];
    const PixelPoint top{pole["pole_200cm_px"][0], pole["pole_200cm_px"][1]};
    const PixelPoint foot{pole["pole_0cm_px"][0], pole["pole_0cm_px"][1]};
    buttonOf(page, "Draw scale line").click();
    dragLine(page.view(), top, foot);
    REQUIRE(clip.scene().scale);
    named<QDoubleSpinBox>(page, "Length of scale line 1").setValue(200);
    CHECK(clip.scene().scale->lengthCm == 200);
    buttonOf(page, "Draw plumb line").click();
    dragLine(page.view(), top, foot);
    REQUIRE(clip.scene().plumb);
}

void markTwoSteps(MainWindow& window, const nlohmann::json& truth)
{
    // Where no desktop does it, a window is not active again once its dialog has closed.
    window.activateWindow();
    REQUIRE(QTest::qWaitForWindowActive(&window));
    window.showPage(QStringLiteral("marks"));
    auto& page = dynamic_cast<MarksPage&>(*window.page());
    const TwoSteps steps = firstTwoSteps(truth);
    markEvent(page, steps.leftContact, Qt::Key_Q);
    markEvent(page, steps.leftToeOff, Qt::Key_W);
    markEvent(page, steps.rightContact, Qt::Key_O);
    markEvent(page, steps.rightToeOff, Qt::Key_P);
    markOpenCells(page, truth);
    CHECK(page.flow().open().empty());
}

/// The second clip as if marked on another evening: the sample's own.
void addFatigued(SessionDocument& session)
{
    const auto sample = readSession(visit);
    REQUIRE(sample);
    SessionClip clip = *findClip(*sample, "fatigued");
    std::filesystem::copy_file(std::filesystem::path(visit) / clip.file,
                               session.folder() / clip.file);
    session.history().push(new AddClip(session, std::move(clip)));
}

QString pdfText(const std::filesystem::path& file)
{
    QProcess pdftotext;
    pdftotext.start(QStringLiteral("pdftotext"), {QString::fromStdString(file.string()), "-"});
    REQUIRE(pdftotext.waitForFinished());
    return QString::fromUtf8(pdftotext.readAllStandardOutput()).simplified();
}

} // namespace

TEST_CASE("the whole job: from a new athlete to the sheet and the re-films", "[ui]")
{
    QTemporaryDir library;
    auto window = std::make_unique<MainWindow>();
    window->resize(1280, 800);
    window->show();
    window->activateWindow();
    REQUIRE(QTest::qWaitForWindowActive(window.get()));
    window->athletes().setLibrary(library.path().toStdString());
    const auto truth = truthOf("fresh");
    beginSession(*window);
    importFresh(*window, truth);
    const auto folder = window->session()->folder();
    markTwoSteps(*window, truth);
    ClipDocument* clip = window->session()->clips().front();
    const bool isRead =
        waitUntil([&] { return !clip->isReading() && readingOf(*clip, "foot_ahead", 1); });
    INFO(clip->readingsFault().toStdString());
    REQUIRE(isRead);
    const TwoSteps steps = firstTwoSteps(truth);
    for (const auto& contact : truth["contacts"]) {
        if (contact["first_frame_of_contact"] == steps.leftContact) {
            // The truth's own distance in the same picture, at the hip's scale; the pole stands
            // further back, where a centimetre is up to 6 % fewer pixels.
            const double ahead = contact["image_at_first_frame"]["foot_ahead_of_hip_cm"];
            CHECK(*readingOf(*clip, "foot_ahead", 1)->value == Approx(ahead).epsilon(0.12));
        }
    }

    const Session done = window->session()->session();
    QUndoStack& history = window->session()->history();
    while (history.canUndo()) {
        history.undo();
    }
    CHECK(window->session()->clips().empty());
    while (history.canRedo()) {
        history.redo();
    }
    CHECK(window->session()->session() == done);

    REQUIRE(window->close());
    window = std::make_unique<MainWindow>();
    window->resize(1280, 800);
    window->show();
    REQUIRE(window->open(folder));
    clip = window->session()->clips().front();
    CHECK(clip->marking().marks == done.clips[0].marking.marks);
    addFatigued(*window->session());
    REQUIRE(waitUntil([&] {
        return std::ranges::all_of(window->session()->clips(), [](const ClipDocument* one) {
            return one->isOpen() && !one->isReading() && one->readings();
        });
    }));

    window->showPage(QStringLiteral("compare"));
    const auto& table = named<QTableView>(*window->page(), "Comparison");
    REQUIRE(waitUntil([&] { return table.model()->rowCount() > 0; }));
    for (int row = 0; row < table.model()->rowCount(); ++row) {
        // One near step, and no belt speed typed: nothing may be called a change.
        for (int column = 0; column < table.model()->columnCount(); ++column) {
            CHECK_FALSE(table.model()
                            ->index(row, column)
                            .data()
                            .toString()
                            .contains(QStringLiteral("clear change")));
        }
    }

    window->showPage(QStringLiteral("sheet"));
    auto& sheet = dynamic_cast<SheetPage&>(*window->page());
    REQUIRE(waitUntil([&] { return sheet.maker().content().has_value(); }));
    const auto file = folder / "sheet.pdf";
    REQUIRE(sheet.exportTo(QString::fromStdString(file.string())));
    const QString text = pdfText(file);
    CHECK(text.contains(QStringLiteral("Nora Lind")));
    CHECK((text.contains(QStringLiteral("too few steps")) ||
           text.contains(QStringLiteral("not comparable"))));
    CHECK(text.contains(QStringLiteral("licensed clinician")));

    window->showPage(QStringLiteral("refilms"));
    auto& refilms = dynamic_cast<RefilmsPage&>(*window->page());
    REQUIRE(waitUntil([&] { return !refilms.maker().isBusy(); }));
    REQUIRE(refilms.maker().days().size() == 1);
    CHECK(refilms.maker().days()[0].fresh.has_value());
}
