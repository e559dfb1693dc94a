// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/landmark.hpp"
#include "core/outcome.hpp"
#include "core/quantities.hpp"
#include "core/scene/scene.hpp"

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace latemile {

/// What is known exactly of a rendered clip of the sample athlete (NAME.truth.json beside the
/// clip).
struct SampleTruth {
    struct FrameTruth {
        Seconds time{};
        std::map<Landmark, PixelPoint> left; ///< as a perfect click would place them
        std::map<Landmark, PixelPoint>
            right;                          ///< side view: joint centres, since the skin is hidden
        std::optional<PixelPoint> leftPsis; ///< rear view
        std::optional<PixelPoint> rightPsis;
    };
    struct ContactTruth {
        Foot foot{};
        double contact{}; ///< exact, s; may lie before the clip
        double toeOff{};
        std::optional<FrameNumber> firstOn;    ///< first frame with the foot on the ground
        std::optional<FrameNumber> firstClear; ///< first frame with the foot clear of it
        /// What perfect clicks on `firstOn` give in the tilted picture, with the scale at the near
        /// hip; side view.
        std::optional<double> footAheadCm, shankDegrees, kneeDegrees, trunkDegrees, headForwardCm;
    };
    View view{};
    bool fresh{};
    double speed{};       ///< m/s
    double tiltDegrees{}; ///< of a level line in the picture
    double pxPerCmAtNearHip{};
    std::optional<PixelPoint> poleBottom, poleTop; ///< the ends of a pole of 200 cm
    std::vector<FrameTruth> frames;
    std::vector<ContactTruth> contacts;
};

Outcome<SampleTruth> readSampleTruth(const std::filesystem::path& file);

} // namespace latemile
