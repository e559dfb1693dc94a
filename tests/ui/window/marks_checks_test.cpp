// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/catch.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/document/commands/remove_mark.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/marks/marks_page.hpp"
#include "ui/marks/stance_ruler.hpp"
#include "ui/marks/step_panel.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"

#include <QPushButton>
#include <QTableView>
#include <QTest>
#include <QUndoStack>

using namespace latemile;
using namespace latemile::ui;

namespace {

const StepInstant thirdContact{StepNumber{3}, Instant::Contact};

QString textOfCell(const MarksPage& page, int row, int column)
{
    const auto* table = page.findChild<QTableView*>();
    return table->model()->index(row, column).data(Qt::AccessibleTextRole).toString();
}

QPushButton* buttonOf(const QWidget& page, const QString& beginning)
{
    for (QPushButton* button : page.findChildren<QPushButton*>()) {
        if (button->text().startsWith(beginning)) {
            return button;
        }
    }
    return nullptr;
}

} // namespace

TEST_CASE("a knee nudged off its place is flagged on the picture, in the cell and in words", "[ui]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    auto& page = dynamic_cast<MarksPage&>(*window.page());
    window.selection().setPlace(thirdContact);
    const auto frame = page.flow().frameOf(thirdContact);
    REQUIRE(frame);
    CHECK(page.flow().oddBones().empty());
    CHECK_FALSE(page.steps().warning().contains("shank"));

    page.flow().choose(MarkKey{*frame, BodySide::Near, Landmark::Ankle});
    for (int n = 0; n < 4; ++n) {
        press(page.view(), Qt::Key_Down, Qt::AltModifier);
    }
    // 40 pixels of about 0.4 cm are a third of a shank.
    REQUIRE_FALSE(page.flow().oddBonesOn(*frame).empty());
    CHECK(page.steps().warning().contains("The shank is"));
    CHECK(textOfCell(page, 2, 0).contains("look at shank +"));

    SECTION("the key goes there from anywhere")
    {
        press(page.view(), Qt::Key_Escape);
        page.player().goTo({5});
        press(page.view(), Qt::Key_C);
        CHECK(page.player().frame() == *frame);
    }
    SECTION("undo on another page takes the flag away")
    {
        window.showPage(QStringLiteral("readings"));
        press(*window.page(), Qt::Key_Z, Qt::ControlModifier);
        window.showPage(QStringLiteral("marks"));
        CHECK(page.flow().oddBones().empty());
        CHECK_FALSE(page.steps().warning().contains("shank"));
    }
}

TEST_CASE("a contact taken away is shown on the ruler where it is missing", "[ui]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    auto& page = dynamic_cast<MarksPage&>(*window.page());
    ClipDocument& clip = *window.session()->clips().front();
    CHECK(page.ruler().faults().empty());
    const Seconds contact = clip.steps()[3].contact;
    const Foot foot = clip.steps()[3].foot;
    window.selection().setPlace(StepInstant{StepNumber{4}, Instant::Contact});
    press(page.view(), Qt::Key_Delete, Qt::ControlModifier);
    REQUIRE(page.ruler().faults().size() == 1);
    const RhythmFault& fault = page.ruler().faults().front();
    CHECK(fault.kind == RhythmFault::Kind::MissedContact);
    CHECK(fault.foot == foot);
    CHECK(std::abs((fault.at - contact).count()) < 0.02);
    CHECK(page.steps().warning().contains("is missing"));
    press(page.view(), Qt::Key_C);
    CHECK(std::abs((clip.index().time(page.player().frame()) - contact).count()) < 0.025);
    window.undo();
    CHECK(page.ruler().faults().empty());
}

TEST_CASE("a mark that breaks a bone holds the flow in its cell", "[ui]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    auto& page = dynamic_cast<MarksPage&>(*window.page());
    window.selection().setPlace(thirdContact);
    const auto frame = page.flow().frameOf(thirdContact);
    ClipDocument& clip = *window.session()->clips().front();
    const MarkKey ankle{*frame, BodySide::Near, Landmark::Ankle};
    const PixelPoint right = clip.marking().find(ankle)->at;
    page.flow().choose(ankle);
    press(page.view(), Qt::Key_Delete);
    REQUIRE(page.flow().pending() == Landmark::Ankle);
    waitForPicture(page);
    // A cell further on wants work too.
    const auto later = page.flow().frameOf({StepNumber{5}, Instant::Contact});
    clip.history().push(new RemoveMark(clip, {*later, BodySide::Near, Landmark::Knee}));
    SECTION("wrong: it stays")
    {
        page.flow().placePending({right.u, right.v + 60});
        CHECK(window.selection().place() == thirdContact);
    }
    SECTION("right: it goes on")
    {
        page.flow().placePending(right);
        CHECK(window.selection().place() == StepInstant{StepNumber{5}, Instant::Contact});
    }
}

TEST_CASE("a late picture takes no mark", "[ui]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    auto& page = dynamic_cast<MarksPage&>(*window.page());
    ClipDocument& clip = *window.session()->clips().front();
    window.selection().setPlace(thirdContact);
    waitForPicture(page);
    page.flow().choose(
        MarkKey{*page.flow().frameOf(thirdContact), BodySide::Near, Landmark::Ankle});
    press(page.view(), Qt::Key_Delete);
    const auto marks = clip.marking().marks;
    // The picture still shows another frame than the cell's: the flow was told of no new one.
    page.flow().setShown({0});
    page.flow().placePending({300, 300});
    CHECK(clip.marking().marks == marks);
}

TEST_CASE("a button names the key as the coach changed it", "[ui][keys]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    QPushButton* next = buttonOf(*window.page(), QStringLiteral("Next cell"));
    REQUIRE(next != nullptr);
    CHECK(next->text().endsWith(u'N'));
    window.keys().set(QStringLiteral("marks.next_cell"), QKeySequence(QStringLiteral("J")));
    CHECK(next->text().endsWith(u'J'));
    CHECK(next->toolTip().contains("(J)"));
    window.keys().resetAll();
    CHECK(next->text().endsWith(u'N'));
}
