// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/window/marking_hands.hpp"

#include "tests/catch.hpp"
#include "tests/project_folders.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/marks/contact_finding.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"

#include <algorithm>
#include <cmath>
#include <fstream>

namespace latemile::ui {

nlohmann::json truthOf(const char* name)
{
    std::ifstream file(tests::sourceFolder().string() +
                       "/sample_clips/ilse-varga/2026-08-29/clips/" + name + ".truth.json");
    return nlohmann::json::parse(file);
}

PixelPoint nearPoint(const nlohmann::json& truth, std::int64_t frame, const std::string& landmark)
{
    const auto& order = truth["landmark_order"];
    const auto at = std::distance(order.begin(), std::find(order.begin(), order.end(), landmark));
    const auto& point =
        truth["frames"][static_cast<std::size_t>(frame)]["L"][static_cast<std::size_t>(at)];
    return {point[0].get<double>(), point[1].get<double>()};
}

PixelPoint truePoint(const nlohmann::json& truth, const MarkKey& key)
{
    const auto& order = truth["landmark_order"];
    const auto at = std::distance(
        order.begin(), std::find(order.begin(), order.end(), std::string(nameOf(key.landmark))));
    const char* side = key.side == BodySide::Near ? "L" : "R"; // the sample's near side is the left
    const auto& point = truth["frames"][static_cast<std::size_t>(key.frame.value)][side]
                             [static_cast<std::size_t>(at)];
    return {point[0].get<double>(), point[1].get<double>()};
}

void findContacts(MarksPage& page)
{
    press(page.view(), Qt::Key_G);
    waitForContacts(page);
}

void waitForContacts(MarksPage& page)
{
    for (int tries = 0; tries < 8 && page.contacts().isBusy(); ++tries) {
        (void)waitUntil([&page] { return !page.contacts().isBusy(); });
    }
    REQUIRE_FALSE(page.contacts().isBusy());
}

void markEvent(MarksPage& page, std::int64_t frame, Qt::Key key)
{
    page.player().goTo({frame});
    press(page.view(), key);
}

void placeByKeys(MarksPage& page, PixelPoint at)
{
    waitForPicture(page);
    const PixelPoint from = page.flow().cursor();
    const auto walk = [&](double way, Qt::Key less, Qt::Key more) {
        const auto tenths = std::lround(std::abs(way) * 10);
        const Qt::Key key = way < 0 ? less : more;
        for (long n = 0; n < tenths / 100; ++n) {
            press(page.view(), key, Qt::AltModifier);
        }
        for (long n = 0; n < tenths / 10 % 10; ++n) {
            press(page.view(), key);
        }
        for (long n = 0; n < tenths % 10; ++n) {
            press(page.view(), key, Qt::ShiftModifier);
        }
    };
    walk(at.u - from.u, Qt::Key_Left, Qt::Key_Right);
    walk(at.v - from.v, Qt::Key_Up, Qt::Key_Down);
    press(page.view(), Qt::Key_Return);
}

const Reading* readingOf(const ClipDocument& clip, const std::string& measure, int step)
{
    if (!clip.readings()) {
        return nullptr;
    }
    for (const Reading& reading : clip.readings()->readings) {
        if (reading.measure == measure && reading.step == StepNumber{step} && reading.value) {
            return &reading;
        }
    }
    return nullptr;
}

TwoSteps firstTwoSteps(const nlohmann::json& truth)
{
    for (std::size_t n = 1; n + 1 < truth["contacts"].size(); ++n) {
        const auto& left = truth["contacts"][n];
        const auto& right = truth["contacts"][n + 1];
        if (left["side"] == "left") {
            return {left["first_frame_of_contact"], left["first_frame_after_toe_off"],
                    right["first_frame_of_contact"], right["first_frame_after_toe_off"]};
        }
    }
    FAIL("the truth holds no left stance");
    return {};
}

void markOpenCells(MarksPage& page, const nlohmann::json& truth)
{
    // N goes from cell to cell; in each the landmarks are asked for in body order.
    int placed = 0;
    for (int cell = 0; cell < 6 && !page.flow().open().empty(); ++cell) {
        press(page.view(), Qt::Key_N);
        while (const auto landmark = page.flow().pending()) {
            placeByKeys(page, nearPoint(truth, page.player().frame().value,
                                        std::string(nameOf(*landmark))));
            ++placed;
            REQUIRE(placed < 40);
        }
    }
}

} // namespace latemile::ui
