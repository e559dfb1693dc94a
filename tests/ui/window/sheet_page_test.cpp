// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/catch.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/sheet_page/cue_choice.hpp"
#include "ui/sheet_page/measure_choice.hpp"
#include "ui/sheet_page/page_options.hpp"
#include "ui/sheet_page/sheet_maker.hpp"
#include "ui/sheet_page/sheet_options.hpp"
#include "ui/sheet_page/sheet_page.hpp"
#include "ui/sheet_page/still_options.hpp"

#include <QCheckBox>
#include <QComboBox>
#include <QImage>
#include <QListWidget>
#include <QProcess>

using namespace latemile;
using namespace latemile::ui;

TEST_CASE("a sheet saved from the page reads back with the athlete and the verdicts", "[ui]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("sheet"));
    auto& page = dynamic_cast<SheetPage&>(*window.page());
    REQUIRE(waitUntil([&] { return page.maker().content() || !page.maker().fault().isEmpty(); }));
    REQUIRE(page.maker().fault().toStdString() == "");
    const auto file = fixture.sessionFolder() / "sheet.pdf";
    REQUIRE(page.exportTo(QString::fromStdString(file.string())));
    QProcess pdftotext;
    pdftotext.start(QStringLiteral("pdftotext"), {QString::fromStdString(file.string()), "-"});
    REQUIRE(pdftotext.waitForFinished());
    const QString text = QString::fromUtf8(pdftotext.readAllStandardOutput());
    CHECK(text.contains(QStringLiteral("Ilse Varga")));
    CHECK(text.contains(QStringLiteral("clear change")));
    CHECK(text.contains(QStringLiteral("clinician")));
}

namespace {

struct OpenSheet {
    WindowFixture fixture;
    MainWindow& window{fixture.openWindow(QStringLiteral("sheet"))};
    SheetPage& page{dynamic_cast<SheetPage&>(*window.page())};
    OpenSheet() { waitForSheet(); }
    void waitForSheet() const
    {
        REQUIRE(waitUntil([&] { return page.maker().content().has_value(); }));
    }
};

} // namespace

TEST_CASE("measures changed with the numbers in sight are marked so on the sheet", "[ui]")
{
    OpenSheet sheet;
    QListWidget& list = sheet.page.options().measures().list();
    QListWidgetItem* off = nullptr;
    for (int row = 0; row < list.count(); ++row) {
        const bool shank = list.item(row)->data(Qt::UserRole) == QStringLiteral("shank_angle");
        off = shank ? list.item(row) : off;
    }
    REQUIRE(off != nullptr);
    REQUIRE(off->checkState() == Qt::Unchecked);
    off->setCheckState(Qt::Checked);
    CHECK(sheet.window.session()->about().measuresAfterLooking);
    REQUIRE(waitUntil([&] {
        return sheet.page.maker().content() &&
               sheet.page.maker().content()->errorWords.find("in sight") != std::string::npos;
    }));
    CHECK(sheet.page.maker().content()->rows.size() == 7);
    sheet.window.undo();
    CHECK_FALSE(sheet.window.session()->about().measuresAfterLooking);
    CHECK(off->checkState() == Qt::Unchecked);
}

TEST_CASE("the cues that fit stand first with their reason, and two are the most", "[ui]")
{
    OpenSheet sheet;
    const auto& boxes = sheet.page.options().cues().boxes();
    REQUIRE(boxes.size() == sheet.page.maker().cues().size());
    for (std::size_t at : {0U, 1U}) {
        CHECK(boxes[at]->isChecked());
        CHECK(boxes[at]->accessibleDescription().startsWith(QStringLiteral("Suggested: ")));
    }
    CHECK_FALSE(boxes.back()->isChecked());
    CHECK(boxes.back()->accessibleDescription().contains(QStringLiteral("No clear change")));
    const QString first = boxes[0]->text();
    boxes[1]->setChecked(false); // keeps the first alone, now as the coach's own choice
    CHECK(sheet.window.session()->about().cues.size() == 1);
    boxes[2]->setChecked(true);
    CHECK(sheet.window.session()->about().cues.size() == 2);
    CHECK_FALSE(boxes[3]->isEnabled());
    CHECK(boxes[0]->text() == first);
}

TEST_CASE("another step and another moment can be shown, of those marked", "[ui]")
{
    OpenSheet sheet;
    StillOptions& stills = sheet.page.options().stills();
    REQUIRE(stills.freshStep().count() > 2);
    stills.freshStep().setCurrentIndex(2);
    emit stills.freshStep().activated(2);
    const int wished = stills.freshStep().itemData(2).toInt();
    CHECK(sheet.window.session()->about().stills.freshStep == StepNumber{wished});
    stills.secondInstant().setCurrentIndex(0);
    emit stills.secondInstant().activated(0);
    REQUIRE(waitUntil([&] {
        return sheet.page.maker().content() && sheet.page.maker().content()->stills.size() == 2;
    }));
    CHECK(sheet.page.maker().content()->stills[0].step == StepNumber{wished});
    CHECK(sheet.page.maker().content()->stills[0].instant == Instant::Contact);
}

TEST_CASE("a logo is kept for every sheet; what is no picture is refused in one sentence", "[ui]")
{
    OpenSheet sheet;
    PageOptions& options = sheet.page.options().page();
    const auto bad = sheet.fixture.sessionFolder() / "session.json";
    CHECK_FALSE(options.setLogo(QString::fromStdString(bad.string())));
    CHECK(options.style().logo.isNull());
    const auto file = QString::fromStdString((sheet.fixture.sessionFolder() / "l.png").string());
    QImage picture(1600, 400, QImage::Format_RGB32);
    picture.fill(Qt::darkGreen);
    REQUIRE(picture.save(file));
    REQUIRE(options.setLogo(file));
    CHECK(options.style().logo.size() == QSize(800, 200));
    const PageOptions again(
        {*sheet.window.session(), sheet.window.selection(), sheet.window.keys()});
    CHECK(again.style().logo.size() == QSize(800, 200));
    options.removeLogo();
    CHECK(options.style().logo.isNull());
}
