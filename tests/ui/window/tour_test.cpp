// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/catch.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/athletes/athletes_page.hpp"
#include "ui/tour/tour_stops.hpp"
#include "ui/tour/tour_strip.hpp"

using namespace latemile::ui;

TEST_CASE("the tour leads over real pages of the sample session and Esc leaves it", "[ui]")
{
    QTemporaryDir library;
    MainWindow window;
    window.resize(1280, 800);
    window.show();
    window.athletes().setLibrary(library.path().toStdString());
    window.startTour();
    REQUIRE(window.session() != nullptr);
    REQUIRE(window.tour().isVisible());
    for (int stop = 0; stop < static_cast<int>(tourStops().size()); ++stop) {
        CHECK(window.tour().stop() == stop);
        CHECK(window.pageId() ==
              QString::fromLatin1(tourStops()[static_cast<std::size_t>(stop)].page));
        if (stop + 1 < static_cast<int>(tourStops().size())) {
            window.tour().goTo(stop + 1);
        }
    }
    press(window.tour(), Qt::Key_Escape);
    CHECK_FALSE(window.tour().isVisible());
    CHECK(window.session() != nullptr);
}
