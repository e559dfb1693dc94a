// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/explanation.hpp"
#include "core/store/coaches.hpp"
#include "core/store/library_measures.hpp"
#include "core/whole_file.hpp"
#include "tests/catch.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/compare/comparison_table.hpp"
#include "ui/own_measures/formula_field.hpp"
#include "ui/own_measures/own_measure_form.hpp"
#include "ui/own_measures/own_measures_dialog.hpp"
#include "ui/readings/measures_dialog.hpp"
#include "ui/readings/readings_page.hpp"
#include "ui/readings/readings_table.hpp"
#include "ui/sheet_page/measure_choice.hpp"

#include <QApplication>
#include <QClipboard>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QMenu>
#include <QPushButton>
#include <QTableView>
#include <QTest>
#include <QTimer>
#include <QToolButton>

#include <algorithm>
#include <fstream>

using namespace latemile;
using namespace latemile::ui;

namespace {

std::filesystem::path ownFile(const WindowFixture& fixture)
{
    return libraryOf(fixture.sessionFolder()) / "own_measures.json";
}

/// The same words as foot_ahead, so that its numbers are known.
OwnMeasure anklePastHip()
{
    return {.id = "ankle_past_hip",
            .name = "Ankle past hip",
            .formula = "ankle ahead of hip at contact",
            .unit = Unit::Centimetre,
            .positive = "further ahead",
            .floor = 1.5};
}

void keepInLibrary(const WindowFixture& fixture, const OwnMeasure& own)
{
    REQUIRE(
        keepOwnMeasures(OwnMeasures::from({own}).value(), {}, libraryOf(fixture.sessionFolder())));
}

void click(QWidget& where, const QString& text)
{
    for (QPushButton* button : where.findChildren<QPushButton*>()) {
        if (button->text() == text) {
            REQUIRE(button->isEnabled());
            QTest::mouseClick(button, Qt::LeftButton);
            return;
        }
    }
    FAIL("no button " << text.toStdString());
}

void type(QLineEdit& field, const QString& text)
{
    field.setFocus();
    field.selectAll();
    QTest::keyClicks(&field, text);
}

void type(FormulaField& field, const QString& text)
{
    field.setFocus();
    field.selectAll();
    QTest::keyClicks(&field, text);
}

int rowOf(const ReadingsTable& table, std::string_view id)
{
    for (int row = 0; row < table.rowCount(); ++row) {
        if (table.measureAt(row)->id == id) {
            return row;
        }
    }
    return -1;
}

QStringList textsOf(const ReadingsTable& table, std::string_view id)
{
    QStringList texts;
    for (int column = 0; column < table.columnCount(); ++column) {
        texts.append(table.index(rowOf(table, id), column).data().toString());
    }
    return texts;
}

bool tells(const QWidget& page, const QString& words)
{
    const auto labels = page.findChildren<QLabel*>();
    return std::ranges::any_of(labels, [&words](const QLabel* label) {
        return label->isVisible() && label->text().contains(words);
    });
}

} // namespace

TEST_CASE("a measure made up in the dialog is kept and becomes a row of the readings", "[ui]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("readings"));
    auto& page = dynamic_cast<ReadingsPage&>(*window.page());
    OwnMeasuresDialog dialog(*window.session(), window.session()->clips().front(), &window);
    dialog.show();
    CHECK(dialog.list().count() == 0);
    click(dialog, QStringLiteral("Add"));
    OwnMeasureForm& form = dialog.form();
    CHECK(form.told().contains(QStringLiteral(" ± "))); // what it begins with works
    type(form.name(), QStringLiteral("Ankle past hip"));
    CHECK(form.id().text() == QStringLiteral("ankle_past_hip"));
    type(form.formula(), QStringLiteral("ankle ahead of hip at contact"));
    // The same number as the built-in measure of the same words has at the step named.
    const ReadingsTable& table = page.readings();
    int column = ReadingsTable::meanColumns;
    const auto reading = [&] {
        return table.readingAt(table.index(rowOf(table, "foot_ahead"), column));
    };
    while (reading() == nullptr || !reading()->value) {
        ++column;
    }
    const QString told = table.told(table.index(rowOf(table, "foot_ahead"), column));
    REQUIRE(waitUntil([&] { return form.told().contains(told); }));
    CHECK(form.told().contains(QStringLiteral("Step %1 ").arg(reading()->step->value)));
    click(dialog, QStringLiteral("Keep"));
    CHECK(dialog.result() == QDialog::Accepted);
    const auto kept = readOwnMeasures(ownFile(fixture));
    REQUIRE(kept);
    REQUIRE(kept->definitions().size() == 1);
    CHECK(kept->definitions().front().formula == "ankle ahead of hip at contact");
    REQUIRE(waitUntil([&] { return rowOf(page.readings(), "ankle_past_hip") >= 0; }));
    CHECK(textsOf(page.readings(), "ankle_past_hip") == textsOf(page.readings(), "foot_ahead"));
}

TEST_CASE("a fault of the formula is told while typing, by its column, and shown there", "[ui]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("readings"));
    OwnMeasuresDialog dialog(*window.session(), window.session()->clips().front(), &window);
    dialog.show();
    click(dialog, QStringLiteral("Add"));
    FormulaField& field = dialog.form().formula();
    type(field, QStringLiteral("ankle ahead of hpi at contact"));
    REQUIRE(waitUntil([&] { return dialog.form().told().contains(QStringLiteral("column 16")); }));
    CHECK(dialog.form().told().contains(QStringLiteral("'hpi' is no landmark")));
    REQUIRE(field.extraSelections().size() == 1);
    CHECK(field.extraSelections().front().cursor.selectedText() == QStringLiteral("hpi"));
    click(dialog, QStringLiteral("Keep"));
    CHECK(dialog.isVisible());
    CHECK(dialog.told().contains(QStringLiteral("cannot be kept yet")));
    CHECK_FALSE(std::filesystem::exists(ownFile(fixture)));
    type(field, QStringLiteral("ankle ahead of hip"));
    REQUIRE(waitUntil([&] { return dialog.form().told().contains(QStringLiteral("at contact")); }));
    type(field, QStringLiteral("angle hip knee ankle at mid-stance"));
    REQUIRE(waitUntil([&] { return dialog.form().told().contains(QStringLiteral("°")); }));
    CHECK(field.extraSelections().isEmpty());
}

TEST_CASE("the formula's words are put in from the menu, and stand-ins filled one by one", "[ui]")
{
    OwnMeasureForm form;
    form.show();
    form.setMeasure({}, false);
    auto* insert = form.findChild<QToolButton*>();
    REQUIRE(insert != nullptr);
    const auto choose = [insert](const QString& text) {
        const auto actions = insert->menu()->findChildren<QAction*>();
        const auto found = std::ranges::find(actions, text, &QAction::text);
        REQUIRE(found != actions.end());
        (*found)->trigger();
    };
    choose(QStringLiteral("lean POINT to POINT"));
    choose(QStringLiteral("hip"));
    choose(QStringLiteral("shoulder"));
    choose(QStringLiteral("at toe-off"));
    CHECK(form.formula().formula() == "lean hip to shoulder at toe-off");
    CHECK(form.measure().unit == Unit::Degree);
}

TEST_CASE("copy, delete and cancel keep nothing by themselves", "[ui]")
{
    WindowFixture fixture;
    keepInLibrary(fixture, anklePastHip());
    const auto before = readWholeFile(ownFile(fixture)).value();
    MainWindow& window = fixture.openWindow(QStringLiteral("readings"));
    OwnMeasuresDialog dialog(*window.session(), window.session()->clips().front(), &window);
    dialog.show();
    REQUIRE(dialog.list().count() == 1);
    click(dialog, QStringLiteral("Copy"));
    REQUIRE(dialog.list().count() == 2);
    CHECK(dialog.form().measure().id != "ankle_past_hip");
    dialog.list().setCurrentRow(0);
    click(dialog, QStringLiteral("Delete"));
    CHECK(dialog.list().count() == 1);
    click(dialog, QStringLiteral("Cancel"));
    CHECK(dialog.isVisible());
    CHECK(dialog.told().contains(QStringLiteral("not kept yet")));
    click(dialog, QStringLiteral("Cancel"));
    CHECK_FALSE(dialog.isVisible());
    CHECK(readWholeFile(ownFile(fixture)).value() == before);
}

TEST_CASE("own measures that cannot be read are told, left out and never overwritten", "[ui]")
{
    WindowFixture fixture;
    const std::string newer = R"({"version": 2, "measures": []})";
    std::ofstream(ownFile(fixture)) << newer;
    MainWindow& window = fixture.openWindow(QStringLiteral("readings"));
    auto& page = dynamic_cast<ReadingsPage&>(*window.page());
    CHECK(rowOf(page.readings(), "foot_ahead") >= 0);
    CHECK(tells(page, QStringLiteral("version 2")));
    OwnMeasuresDialog dialog(*window.session(), window.session()->clips().front(), &window);
    dialog.show();
    CHECK(dialog.told().contains(QStringLiteral("own_measures.json")));
    for (const QPushButton* button : dialog.findChildren<QPushButton*>()) {
        CHECK(button->isEnabled() == (button->text() == QStringLiteral("Cancel")));
    }
    CHECK(readWholeFile(ownFile(fixture)).value() == newer);
}

TEST_CASE("an own measure is hidden, put in order, copied, compared and offered to the sheet like "
          "any other",
          "[ui]")
{
    WindowFixture fixture;
    keepInLibrary(fixture, anklePastHip());
    MainWindow& window = fixture.openWindow(QStringLiteral("readings"));
    auto& page = dynamic_cast<ReadingsPage&>(*window.page());
    REQUIRE(rowOf(page.readings(), "ankle_past_hip") >= 0);
    click(page, QStringLiteral("Copy as CSV"));
    CHECK(QApplication::clipboard()->text().contains(QStringLiteral("\nankle_past_hip,cm,")));

    MeasuresDialog dialog(page.readings().order(), window.session()->ownMeasures());
    QListWidget& list = dialog.list();
    for (int row = 0; row < list.count(); ++row) {
        if (list.item(row)->data(Qt::UserRole) == QStringLiteral("ankle_past_hip")) {
            list.setCurrentRow(row);
        }
    }
    while (list.currentRow() > 0) {
        click(dialog, QStringLiteral("Up"));
    }
    page.readings().setOrder(dialog.order());
    CHECK(rowOf(page.readings(), "ankle_past_hip") == 0);
    list.item(0)->setCheckState(Qt::Unchecked);
    page.readings().setOrder(dialog.order());
    CHECK(rowOf(page.readings(), "ankle_past_hip") < 0);
    page.readings().setOrder({});

    window.showPage(QStringLiteral("compare"));
    for (QComboBox* box : window.page()->findChildren<QComboBox*>()) {
        box->setCurrentIndex(std::max(box->currentIndex(), box->findText("All measures")));
    }
    auto* compared = window.page()->findChild<ComparisonTable*>();
    REQUIRE(compared != nullptr);
    const auto isCompared = [compared] {
        return std::ranges::any_of(compared->rows(), [](const ComparisonTable::Row& row) {
            return row.measure == "ankle_past_hip" && row.against.front()->change;
        });
    };
    REQUIRE(waitUntil(isCompared));
    for (int row = 0; row < compared->rowCount(); ++row) {
        CHECK_FALSE(compared->index(row, 0).data().toString().isEmpty());
    }

    window.showPage(QStringLiteral("sheet"));
    const auto* choice = window.page()->findChild<MeasureChoice*>();
    REQUIRE(choice != nullptr);
    CHECK(choice->list().findItems(QStringLiteral("Ankle past hip"), Qt::MatchExactly).size() == 1);
}

TEST_CASE("the key of own measures opens the dialog from the readings page", "[ui]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("readings"));
    auto& page = dynamic_cast<ReadingsPage&>(*window.page());
    bool opened = false;
    QTimer::singleShot(0, &window, [&opened] {
        if (auto* dialog = dynamic_cast<OwnMeasuresDialog*>(QApplication::activeModalWidget())) {
            opened = true;
            dialog->reject();
        }
    });
    press(page.table(), Qt::Key_O);
    CHECK(opened);
}

TEST_CASE("a mean chosen tells where its error comes from and what would help most", "[ui]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("readings"));
    auto& page = dynamic_cast<ReadingsPage&>(*window.page());
    const ReadingsTable& table = page.readings();
    constexpr int leftMean = 0;
    const QModelIndex mean = table.index(rowOf(table, "contact_time"), leftMean);
    page.table().setCurrentIndex(mean);
    CHECK(tells(page, QStringLiteral("mean of ")));
    CHECK(tells(page, QStringLiteral("judgement of events all steps share")));
    CHECK(tells(page, QStringLiteral("twice the frame rate")));
    CHECK(tells(page, QStringLiteral("the nearest to it")));
    // Of the left foot's steps alone, as the number in the cell.
    const Summary& summary = *table.summaryAt(mean);
    const auto explained =
        explainMean(window.session()->clips().front()->marked(), *table.measureAt(mean.row()),
                    {.foot = Foot::Left, .confirmedOnly = true});
    REQUIRE(explained);
    CHECK(*explained->value == Approx(summary.mean));
    CHECK(explained->steps == summary.n);
    CHECK(*explained->se >= Approx(summary.se).margin(1e-9));
}
