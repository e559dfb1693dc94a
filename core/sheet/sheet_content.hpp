// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/compare/comparison.hpp"
#include "core/compare/cues.hpp"
#include "core/measures/measure.hpp"
#include "core/quantities.hpp"
#include "core/store/session.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace latemile {

/// A line between two points of a still, in pixels of its upright picture.
struct StillLine {
    PixelPoint from;
    PixelPoint to;
};

/// An arc for an angle: centre, and the directions it lies between (degrees, anticlockwise from the
/// picture's right).
struct StillArc {
    PixelPoint centre;
    double fromDegrees{};
    double toDegrees{};
};

/// One frame shown on the sheet with what is drawn on it.
struct Still {
    bool fatigued{};
    Instant instant{};
    std::filesystem::path clip;        ///< the file the frame comes from
    std::optional<double> captureRate; ///< as stated for it
    FrameNumber frame;
    std::vector<PixelPoint> landmarks;
    std::vector<StillLine> segments;
    StillLine plumb; ///< through the hip, along up
    struct Measured {
        std::string label; ///< "21.4 cm"
        std::vector<StillLine> lines;
        std::vector<StillArc> arcs;
        PixelPoint labelAt;
    };
    std::vector<Measured> measured;
    PixelPoint cropFrom; ///< top left and bottom right of the part worth showing, equal in scale
                         ///< for both conditions
    PixelPoint cropTo;
};

/// A row of the sheet's table, numbers already rounded to what their error deserves.
struct SheetRow {
    std::string name;
    std::string unit;
    std::string fresh;
    std::string fatigued;
    std::string change; ///< "+3.1 ± 1.2"
    Verdict verdict{};
    std::string sentence;
    std::string reason;
};

/// All that stands on the athlete's sheet: content only, no layout.
struct SheetContent {
    std::string athlete;
    std::string date;
    std::string coach;
    std::string speed;       ///< "2.70 m/s (6:10 min/km)"
    std::string freshMinute; ///< "minute 6"
    std::string fatiguedMinute;
    std::vector<Still> stills; ///< fresh and fatigued at contact, fresh and fatigued at mid-stance
    std::vector<SheetRow> rows;
    struct CueText {
        std::string think, because, drill, caution;
    };
    std::vector<CueText> cues; ///< at most two
    std::string note;          ///< the coach's own
    std::vector<std::string> cautions;
    std::string confirmed;    ///< "The coach confirmed 96 of 96 instants."
    std::string seeClinician; ///< not empty: stands in the place of the cues
};

/// The content of a session's sheet: its fresh and its fatigued clip from one side. A session
/// without both, or without readings to compare, is an Error that says what is missing.
Outcome<SheetContent> sheetContent(const std::filesystem::path& sessionFolder,
                                   const Session& session, const Athlete& athlete,
                                   const std::vector<Cue>& cues);

} // namespace latemile
