// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/marking.hpp"
#include "core/outcome.hpp"

#include <filesystem>
#include <map>
#include <optional>
#include <vector>

namespace latemile {

/// What a rendered clip was made from: where the near landmarks are on each frame, and when the
/// feet are on the ground. A coach may practise marking against it.
struct ClipTruth {
    struct Event {
        Foot foot{};
        bool isToeOff{}; ///< else contact
        Seconds time{};  ///< exact, between frames
    };
    double pixelsPerCm{1.0};                            ///< at the near hip
    std::vector<std::map<Landmark, PixelPoint>> frames; ///< by frame number
    std::vector<Event> events;                          ///< in order of time
};

/// Of the file NAME.truth.json beside the clip NAME.mp4. Only a side view has near landmarks: any
/// other is an Error.
Outcome<ClipTruth> readClipTruth(const std::filesystem::path& clip);

/// How far a mark lies from where the landmark is.
struct MarkMiss {
    Landmark landmark{};
    PixelPoint truth;
    double pixels{};
    double centimetres{}; ///< in the plane of the near hip
};
/// The near marks of a frame that the coach placed and the truth knows, from head to foot.
[[nodiscard]] std::vector<MarkMiss> missesOf(const Marking& marking, FrameNumber frame,
                                             const ClipTruth& truth);

/// How far a marked event lies from the nearest true one of its foot and kind.
struct EventMiss {
    Foot foot{};
    bool isToeOff{};
    Seconds marked{};
    Seconds late{}; ///< negative: marked too early
};
/// Of all events that the coach placed, in order of time.
[[nodiscard]] std::vector<EventMiss> missesOf(const std::vector<Stance>& stances,
                                              const ClipTruth& truth);

} // namespace latemile
