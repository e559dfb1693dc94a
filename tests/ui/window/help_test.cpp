// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/catch.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/help/example_figure.hpp"
#include "ui/help/help_page.hpp"
#include "ui/help/measure_picture.hpp"
#include "ui/readings/readings_page.hpp"
#include "ui/window/side_pages.hpp"

#include <QLineEdit>
#include <QListWidget>
#include <QTableView>

#include <algorithm>
#include <set>

using namespace latemile;
using namespace latemile::ui;

namespace {

/// How many colours a picture has: an empty field has one.
std::size_t coloursOf(QWidget& picture)
{
    const QImage image = picture.grab().toImage();
    std::set<QRgb> colours;
    for (int y = 0; y < image.height(); ++y) {
        for (int x = 0; x < image.width(); ++x) {
            colours.insert(image.pixel(x, y));
        }
    }
    return colours.size();
}

} // namespace

TEST_CASE("help tells every measure of the table and draws it", "[ui]")
{
    Keys keys;
    const auto topics = helpTopics(keys);
    CHECK(topics.size() == measureTable().size() + 5);
    for (const HelpTopic& topic : topics) {
        CAPTURE(topic.id.toStdString());
        CHECK(topic.rows.size() >= 4);
        if (topic.measure != nullptr) {
            MeasurePicture picture;
            picture.setMeasure(topic.measure);
            picture.resize(picture.sizeHint());
            CHECK(coloursOf(picture) > 8);
            CHECK_FALSE(picture.accessibleDescription().isEmpty());
        }
    }
}

TEST_CASE("the picture's number is that of the worked example", "[ui][outside]")
{
    // Worked by hand in DEVELOPERS.md, "Worked example": foot_ahead 26.000 cm at contact,
    // trunk_lean 7.806 degrees at mid-stance.
    const Still ahead = exampleStill(*findMeasure("foot_ahead"));
    REQUIRE(ahead.measured.size() == 1);
    CHECK(ahead.measured[0].label == "26.0 cm");
    const Still lean = exampleStill(*findMeasure("trunk_lean"));
    REQUIRE(lean.measured.size() == 1);
    CHECK(QString::fromStdString(lean.measured[0].label).startsWith(QStringLiteral("7.8")));
}

TEST_CASE("help is searched by any words of a topic", "[ui]")
{
    Keys keys;
    HelpPage help(keys);
    help.search().setText(QStringLiteral("roll camera shin"));
    bool found = false;
    for (int row = 0; row < help.list().count(); ++row) {
        found = found || help.list().item(row)->data(Qt::UserRole) == QStringLiteral("shank_angle");
    }
    CHECK(found);
    CHECK(help.list().count() < 5);
    help.search().setText(QStringLiteral("no such words"));
    CHECK(help.list().count() == 0);
    help.showTopic(QStringLiteral("foot_ahead"));
    CHECK(help.shownTopic() == QStringLiteral("foot_ahead"));
}

TEST_CASE("F1 on a reading opens the help on its measure; Esc goes back to the readings", "[ui]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("readings"));
    auto& page = dynamic_cast<ReadingsPage&>(*window.page());
    REQUIRE(waitUntil([&] { return page.table().currentIndex().isValid(); }));
    const QString shown = page.property("helpTopic").toString();
    REQUIRE_FALSE(shown.isEmpty());
    press(page.table(), Qt::Key_F1);
    HelpPage* help = window.sidePages().help();
    REQUIRE(help != nullptr);
    CHECK(window.page() == help);
    CHECK(help->shownTopic() == shown);
    press(*help, Qt::Key_Escape);
    CHECK(window.page() == &page);
}

TEST_CASE("help shows a key as the coach has set it", "[ui]")
{
    Keys keys;
    keys.set(QStringLiteral("marks.next_cell"), QKeySequence(Qt::Key_J));
    const auto topics = helpTopics(keys);
    keys.resetAll();
    const bool told = std::ranges::any_of(topics[1].rows, [](const auto& row) {
        return row.first == QStringLiteral("J") && row.second.contains(QStringLiteral("Next cell"));
    });
    CHECK(told);
}
