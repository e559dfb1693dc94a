// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/catch.hpp"
#include "tests/ui/window/marking_hands.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/marks/marks_page.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"

#include <QTest>

#include <iostream>

using namespace latemile;
using namespace latemile::ui;

namespace {

/// A coach at the marks page, who sees the truth and whose every key press and click is counted.
class Hand {
public:
    explicit Hand(MarksPage& page) : m_page(page) {}

    [[nodiscard]] int actions() const { return m_actions; }
    void key(Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier)
    {
        press(m_page.view(), key, modifiers);
        ++m_actions;
    }
    void click(PixelPoint at)
    {
        const FrameView& view = m_page.view();
        const QPointF device = view.map().toDevice(at) / view.devicePixelRatioF();
        QTest::mouseClick(&m_page.view(), Qt::LeftButton, {}, device.toPoint());
        ++m_actions;
    }
    void stepTo(std::int64_t frame)
    {
        while (m_page.player().frame().value != frame) {
            key(m_page.player().frame().value < frame ? Qt::Key_Period : Qt::Key_Comma);
        }
    }
    /// Moves the crosshair from where it stands, by tens, ones and tenths of a pixel.
    void placeByKeys(PixelPoint at)
    {
        const PixelPoint from = m_page.flow().cursor();
        walk(at.u - from.u, Qt::Key_Left, Qt::Key_Right);
        walk(at.v - from.v, Qt::Key_Up, Qt::Key_Down);
        key(Qt::Key_Return);
    }

private:
    /// To half a pixel, as a coach who marks by eye.
    void walk(double way, Qt::Key less, Qt::Key more)
    {
        const long pixels = std::lround(std::abs(way));
        const Qt::Key towards = way < 0 ? less : more;
        const Qt::Key back = way < 0 ? more : less;
        const long tens = (pixels + 4) / 10;
        const long ones = pixels - 10 * tens;
        for (long n = 0; n < tens; ++n) {
            key(towards, Qt::AltModifier);
        }
        for (long n = 0; n < std::abs(ones); ++n) {
            key(ones < 0 ? back : towards);
        }
    }

    MarksPage& m_page;
    int m_actions{};
};

/// From an empty clip: contact and toe-off of the first `stances` stances.
void markEvents(Hand& hand, const nlohmann::json& truth, std::size_t stances)
{
    const auto& contacts = truth["contacts"];
    for (std::size_t n = 0; n < stances; ++n) {
        hand.stepTo(contacts[n]["first_frame_of_contact"]);
        hand.key(n == 0 ? Qt::Key_Q : Qt::Key_E); // the sample begins with a left contact
        if (n == 0) {
            hand.key(Qt::Key_D);
        }
        hand.stepTo(contacts[n]["first_frame_after_toe_off"]);
        hand.key(Qt::Key_E);
    }
}

template <class Place>
int markLandmarks(MarksPage& page, Hand& hand, const nlohmann::json& truth, Place place)
{
    int placed = 0;
    hand.key(Qt::Key_N);
    while (const auto landmark = page.flow().pending()) {
        waitForPicture(page);
        place(nearPoint(truth, page.player().frame().value, std::string(nameOf(*landmark))));
        REQUIRE(++placed < 200);
    }
    return placed;
}

} // namespace

TEST_CASE("from an empty clip to six marked steps takes a click a landmark and few keys an event",
          "[ui][hand]")
{
    WindowFixture fixture;
    fixture.makeUnmarked();
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    auto& page = dynamic_cast<MarksPage&>(*window.page());
    const auto truth = truthOf("fresh");
    REQUIRE(waitUntil([&] { return !page.view().pictureSize().isEmpty(); }));
    Hand hand(page);
    constexpr int steps = 6;
    markEvents(hand, truth, steps);
    const ClipDocument& clip = *window.session()->clips().front();
    REQUIRE(clip.steps().size() == steps);
    REQUIRE(clip.steps().back().toeOff);
    CHECK(page.flow().rhythmFaults().empty());
    const int forEvents = hand.actions();
    // Two keys an event beside the frames between where it is due and where it is.
    CHECK(forEvents <= 2 * steps * 4);

    SECTION("with the pointer")
    {
        const int placed = markLandmarks(page, hand, truth, [&](PixelPoint at) { hand.click(at); });
        // Hip, knee and ankle at the near contacts; ear, shoulder and hip at every mid-stance.
        CHECK(placed == 3 * 3 + 6 * 3);
        CHECK(page.flow().open().empty());
        CHECK(hand.actions() - forEvents == placed + 1);
        CHECK(clip.marking().marks.size() == static_cast<std::size_t>(placed));
        std::cout << "six steps: " << forEvents << " actions for " << 2 * steps << " events, "
                  << hand.actions() - forEvents << " for " << placed << " landmarks; "
                  << hand.actions() / (3.0 * steps) << " an instant\n";
    }
    SECTION("by the keyboard alone")
    {
        const int placed =
            markLandmarks(page, hand, truth, [&](PixelPoint at) { hand.placeByKeys(at); });
        CHECK(page.flow().open().empty());
        std::cout << "six steps by keys alone: "
                  << (hand.actions() - forEvents) / static_cast<double>(placed)
                  << " presses a landmark\n";
        CHECK(hand.actions() - forEvents < 40 * placed);
    }
}
