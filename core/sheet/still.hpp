// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/steps.hpp"
#include "core/quantities.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace latemile {

/// A landmark as drawn: filled out only where the coach placed it.
struct StillMark {
    Landmark landmark{};
    PixelPoint at;
    bool placed{true};
    bool operator==(const StillMark&) const = default;
};

/// A line between two points of a still, in pixels of its upright picture.
struct StillLine {
    PixelPoint from;
    PixelPoint to;
    bool operator==(const StillLine&) const = default;
};

/// An arc for an angle: its centre and radius, and the directions it lies between in degrees,
/// anticlockwise as seen from the picture's right; `toDegrees` lies within 180 of `fromDegrees`.
struct StillArc {
    PixelPoint centre;
    double fromDegrees{};
    double toDegrees{};
    double radius{}; ///< pixels
    bool operator==(const StillArc&) const = default;
};

/// A measure drawn where it was read.
struct StillMeasured {
    std::string measure;         ///< id
    std::string letter;          ///< of its row in the sheet's table: "A"
    std::string label;           ///< "21.4 cm"; empty where one step tells no reading
    std::optional<double> value; ///< at this step, in the measure's unit
    std::optional<double> se;
    std::vector<StillLine> lines;
    std::vector<StillArc> arcs;
    PixelPoint labelAt; ///< on what was measured; the label stands near it
    bool operator==(const StillMeasured&) const = default;
};

/// One frame shown on the sheet with what is drawn on it.
struct Still {
    bool fatigued{};
    Instant instant{};
    StepNumber step;
    std::filesystem::path clip;        ///< the file the frame comes from
    std::optional<double> captureRate; ///< as stated for it
    FrameNumber frame;
    std::vector<StillMark> landmarks;
    std::vector<StillLine> segments;
    StillLine plumb; ///< through the hip, along up, from top to bottom of the crop
    std::vector<StillMeasured> measured;
    PixelPoint cropFrom; ///< top left and bottom right of the part worth showing: of one size in
    PixelPoint cropTo;   ///< centimetres and with the hip at one place in all stills of a sheet;
                         ///< may reach out of the picture
    bool operator==(const Still&) const = default;
};

/// The instants that a sheet shows when none were chosen: contact and mid-stance.
[[nodiscard]] const std::vector<Instant>& defaultStillInstants();

/// Width of a still's crop over its height.
inline constexpr double stillAspect = 0.75;

} // namespace latemile
