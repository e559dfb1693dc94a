// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/clip_document.hpp"
#include "ui/marks/marks_page.hpp"

#include <nlohmann/json.hpp>

#include <cstdint>
#include <string>

namespace latemile::ui {

/// The exact truth a clip of the sample's first visit was rendered from.
[[nodiscard]] nlohmann::json truthOf(const char* name);
[[nodiscard]] PixelPoint nearPoint(const nlohmann::json& truth, std::int64_t frame,
                                   const std::string& landmark);

/// The same of either side.
[[nodiscard]] PixelPoint truePoint(const nlohmann::json& truth, const MarkKey& key);

/// The first left stance of the clip that lies whole in it and the contact after it.
struct TwoSteps {
    std::int64_t leftContact{}, leftToeOff{}, rightContact{}, rightToeOff{};
};
[[nodiscard]] TwoSteps firstTwoSteps(const nlohmann::json& truth);

/// What a coach does by the keyboard: go to the frame, press the event's key.
/// Found by the pictures where the marks alone do not tell.
void findContacts(MarksPage& page);
void waitForContacts(MarksPage& page);
void markEvent(MarksPage& page, std::int64_t frame, Qt::Key key);
/// Moves the crosshair with the arrow keys by whole and tenth pixels, then places.
void placeByKeys(MarksPage& page, PixelPoint at);
/// Goes from cell to cell with N and places every landmark asked for where the truth has it.
void markOpenCells(MarksPage& page, const nlohmann::json& truth);

/// The reading of a step, or nothing.
[[nodiscard]] const Reading* readingOf(const ClipDocument& clip, const std::string& measure,
                                       int step);

} // namespace latemile::ui
