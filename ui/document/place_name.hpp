// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/steps.hpp"

#include <QString>

#include <optional>

namespace latemile::ui {

class ClipDocument;

/// A step's instant and the frame it is marked on.
struct StepInstant {
    StepNumber step;
    Instant instant{};
    bool operator==(const StepInstant&) const = default;
};

/// The step and instant that are marked on this frame, if it is one of those.
[[nodiscard]] std::optional<StepInstant> instantAt(const ClipDocument& document, FrameNumber frame);

/// Where an edit happened, as a coach would say it: "step 3 contact", or "frame 214".
[[nodiscard]] QString placeName(const ClipDocument& document, FrameNumber frame);

} // namespace latemile::ui
