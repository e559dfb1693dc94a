// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/ui/window/window_fixture.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/marks/marks_page.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"

#include <QTableView>
#include <QTest>

#include <cmath>

namespace latemile::ui {

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
    void drag(PixelPoint from, PixelPoint to)
    {
        FrameView& view = m_page.view();
        const double ratio = view.devicePixelRatioF();
        const QPoint grip = (view.map().toDevice(from) / ratio).toPoint();
        const QPoint there = (view.map().toDevice(to) / ratio).toPoint();
        QTest::mousePress(&view, Qt::LeftButton, {}, grip);
        QTest::mouseMove(&view, (grip + there) / 2);
        QTest::mouseMove(&view, there);
        QTest::mouseRelease(&view, Qt::LeftButton, {}, there);
        ++m_actions;
    }
    void chooseCell(const StepInstant& place) // a click into the step table
    {
        auto* table = m_page.findChild<QTableView*>();
        table->setCurrentIndex(
            table->model()->index(place.step.value - 1, static_cast<int>(place.instant)));
        waitForPicture(m_page);
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

/// Drags what a coach would see to be off: by more than two of the errors of a click.
void setRight(MarksPage& page, Hand& hand, const nlohmann::json& truth, const StepInstant& place);

} // namespace latemile::ui
