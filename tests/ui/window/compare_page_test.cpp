// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/catch.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/compare/compare_page.hpp"
#include "ui/compare/compare_side.hpp"
#include "ui/compare/comparison_table.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/picture/frame_view.hpp"

#include <QComboBox>
#include <QTableView>
#include <QTest>
#include <QToolButton>

using namespace latemile;
using namespace latemile::ui;

namespace {

QComboBox& boxNamed(const QWidget& parent, const QString& name)
{
    for (QComboBox* box : parent.findChildren<QComboBox*>()) {
        if (box->accessibleName() == name) {
            return *box;
        }
    }
    FAIL("no list " << name.toStdString());
    throw 0;
}

/// As a coach does by the keyboard: arrows until the wanted line stands there.
void chooseClip(CompareSide& side, const QString& beginning)
{
    QComboBox& box = boxNamed(side, QStringLiteral("Clip"));
    QTest::keyClick(&box, Qt::Key_Home);
    for (int n = 0; n < box.count() && !box.currentText().startsWith(beginning); ++n) {
        QTest::keyClick(&box, Qt::Key_Down);
    }
    REQUIRE(box.currentText().startsWith(beginning));
}

bool isRead(const ComparePage& page)
{
    return page.told().isEmpty() && page.comparison().rowCount() > 0;
}

QString headerAt(const ComparePage& page, int column)
{
    return page.comparison().headerData(column, Qt::Horizontal, Qt::DisplayRole).toString();
}

} // namespace

TEST_CASE("a clip of another filming day can be set against one of this day", "[ui]")
{
    WindowFixture fixture;
    fixture.addLaterVisits();
    MainWindow& window = fixture.openWindow(QStringLiteral("compare"));
    auto& page = dynamic_cast<ComparePage&>(*window.page());
    REQUIRE(waitUntil([&] { return isRead(page); }));
    CHECK(headerAt(page, 0) == "Fresh");
    CHECK(headerAt(page, 1) == "Fatigued");
    CHECK(page.comparison().columnCount() == 5);

    chooseClip(page.side(1), QStringLiteral("2026-09-26 · Fresh"));
    REQUIRE(waitUntil([&] { return isRead(page); }));
    CHECK(page.side(1).clip()->clip().condition == "fresh");
    CHECK(page.side(1).clip()->file().string().find("2026-09-26") != std::string::npos);
    CHECK(headerAt(page, 0) == "2026-08-29");
    CHECK(headerAt(page, 1) == "2026-09-26");
    CHECK_FALSE(page.side(0).shown()->ink == page.side(1).shown()->ink);

    page.setThirdShown(true);
    chooseClip(page.side(2), QStringLiteral("2026-10-24 · Fresh"));
    REQUIRE(waitUntil([&] { return isRead(page); }));
    CHECK(page.comparison().columnCount() == 8);
    CHECK(headerAt(page, 4) == "2026-10-24");
    page.setThirdShown(false);
    CHECK(page.comparison().columnCount() == 5);
}

TEST_CASE("the main measures are those chosen, all are all", "[ui]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("compare"));
    auto& page = dynamic_cast<ComparePage&>(*window.page());
    REQUIRE(waitUntil([&] { return isRead(page); }));
    const int main = page.comparison().rowCount();
    QTest::keyClick(&boxNamed(page, QStringLiteral("Measures compared")), Qt::Key_Down);
    CHECK(page.comparison().rowCount() > 2 * main);
}

TEST_CASE("both sides are of one scale, and stay so when one is zoomed", "[ui]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("compare"));
    auto& page = dynamic_cast<ComparePage&>(*window.page());
    const auto isShown = [&](std::size_t side) { // a view without its picture is not zoomed
        auto* view = page.side(side).findChild<FrameView*>();
        return page.side(side).sightInCm() && !view->pictureSize().isEmpty();
    };
    REQUIRE(waitUntil([&] { return isRead(page) && isShown(0) && isShown(1); }));
    const auto width = [&](std::size_t side) { return page.side(side).sightInCm()->width(); };
    CHECK(width(0) == Approx(width(1)).epsilon(0.01));
    const double before = width(1);
    auto* view = page.side(0).findChild<FrameView*>();
    view->zoomBy(2.0);
    CHECK(width(0) == Approx(before / 2).epsilon(0.01));
    CHECK(width(1) == Approx(width(0)).epsilon(0.01));
}

TEST_CASE("played in step both sides are at the same share of their steps", "[ui]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("compare"));
    auto& page = dynamic_cast<ComparePage&>(*window.page());
    REQUIRE(
        waitUntil([&] { return isRead(page) && page.side(0).shown() && page.side(1).shown(); }));
    const auto share = [&](std::size_t at) {
        const CompareSide& side = page.side(at);
        const Step& step = *side.step();
        const Seconds time = side.clip()->index().time(side.shown()->frame);
        return (time - step.contact) / (*step.nextContact - step.contact);
    };
    for (QToolButton* button : page.findChildren<QToolButton*>()) {
        if (button->text() == "Play in step") {
            QTest::mouseClick(button, Qt::LeftButton);
        }
    }
    REQUIRE(waitUntil([&] { return share(0) > 0.3; }));
    // A frame of 1/120 s is 0.024 of a step of 350 ms.
    CHECK(share(0) == Approx(share(1)).margin(0.03));
}

TEST_CASE("a refusal stands in the table with its reason", "[ui]")
{
    WindowFixture fixture;
    auto session = readSession(fixture.sessionFolder());
    REQUIRE(session);
    session->clips[1].scene.beltSpeed = *session->clips[0].scene.beltSpeed * 1.2;
    REQUIRE(writeSession(*session, fixture.sessionFolder()));
    MainWindow& window = fixture.openWindow(QStringLiteral("compare"));
    auto& page = dynamic_cast<ComparePage&>(*window.page());
    REQUIRE(waitUntil([&] { return isRead(page); }));
    const auto& table = page.comparison();
    const auto words = table.index(0, table.wordsColumn()).data().toString();
    CHECK(words.contains("speeds differ"));
    CHECK(table.index(0, table.wordsColumn() - 1).data().toString().contains("not comparable"));
}
