// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"
#include "core/filming/set_up_advice.hpp"
#include "core/measures/readings.hpp"

#include <optional>
#include <string>
#include <vector>

namespace latemile {

/// What is known about a clip when its trust is weighed.
struct FilmedClip {
    ClipFacts facts;
    Scene scene;
    std::optional<Readings> readings; ///< for the checks that need marks
    /// False where the file's checksum is no longer that of the film that came in.
    bool isOriginal{true};
};

/// The check list of a clip, in the order of the work: another file than came in, time, scale,
/// upright, speed, and the checks of scene and marks. Each item says with its numbers what can be
/// trusted.
[[nodiscard]] std::vector<Remark> trustIn(const FilmedClip& clip);

/// The one thing that would lower the errors of the main measures most, against each measure's
/// smallest change worth a word: "film at 240 frames/s: one contact time ± 3 ms instead of ± 7 ms".
/// Nothing where no measure would gain a tenth of that, or none can be read at all.
[[nodiscard]] std::optional<std::string> mostHelpful(const FilmedClip& clip);

} // namespace latemile
