// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/catch.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/sheet_page/sheet_maker.hpp"
#include "ui/sheet_page/sheet_page.hpp"

#include <QProcess>

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
