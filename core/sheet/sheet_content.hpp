// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/frame_index.hpp"
#include "core/compare/comparison.hpp"
#include "core/compare/cues.hpp"
#include "core/sheet/sheet_words.hpp"
#include "core/sheet/still.hpp"
#include "core/store/session.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace latemile {

/// A row of the sheet's table, numbers already rounded to what their error deserves.
struct SheetRow {
    std::string letter; ///< "A": the same measure on the stills
    std::string name;
    std::string unit; ///< "cm", "°"
    std::string fresh;
    std::string fatigued;
    std::string change; ///< "+3.1 ± 1.2", "–" without a number
    Verdict verdict{};
    std::string sentence;
    std::string reason;
};

/// A cue as the athlete reads it.
struct CueText {
    std::string think, because, drill, caution;
    std::string measure;  ///< id of the change it answers; empty: the coach's own reason
    std::string letter{}; ///< of that measure's row
};

/// All that stands on the athlete's sheet: content only, no layout.
struct SheetContent {
    std::string athlete;
    std::string date; ///< "29 August 2026"
    std::string coach;
    std::string speed;       ///< "2.70 m/s (6:10 min/km)"
    std::string freshMinute; ///< "minute 6"; empty where not stated
    std::string fatiguedMinute;
    std::vector<Still> stills; ///< fresh and fatigued at the first instant, then at the second
    std::vector<SheetRow> rows;
    std::vector<CueText> cues; ///< at most two
    std::string note;          ///< the coach's own
    std::vector<std::string> cautions;
    std::string errorWords;   ///< what "±" means on this page
    std::string confirmed;    ///< "The coach confirmed 44 of 44 marked instants."
    std::string seeClinician; ///< not empty: stands in the place of the cues

    // What the words above are made from, so that they can be told in other units.
    std::vector<ComparisonRow> compared; ///< one a row, in the same order
    OwnMeasures own{};                   ///< the coach's own among them
    std::optional<double> freshSpeed;    ///< m/s; none: not stated
    std::optional<double> fatiguedSpeed;
    std::optional<double> inclinePercent;
};

/// The measures of a sheet when none were chosen beforehand: five that a still shows, from the head
/// down, and contact time. Step rate is left to the coach's choice: the change to expect with
/// fatigue, about 1 % (Hunter & Smith 2007), lies below what is worth a word.
[[nodiscard]] const std::vector<std::string>& defaultSheetMeasures();

/// What every sheet says, whoever it is for: common practice, no source.
[[nodiscard]] std::vector<std::string> usualCautions();
/// What "±" means on the page.
[[nodiscard]] std::string errorWords();
/// Where the measures were chosen with the numbers in sight.
[[nodiscard]] std::string afterLookingWords();

/// What may be chosen about a sheet besides what the session keeps.
struct SheetChoice {
    std::optional<StepNumber> freshStep; ///< none: the session's, else that nearest the median
    std::optional<StepNumber> fatiguedStep;
    bool hideName{}; ///< the athlete's code stands for the name
};

/// A clip of the sheet with what was computed from it.
struct SheetClip {
    std::filesystem::path file;
    SessionClip clip;
    FrameIndex index;
    Readings readings;
};

/// The first clip of a condition from a side, with its readings, a coach's `own` measures among
/// them; opens its file.
Outcome<SheetClip> sheetClipOf(const std::filesystem::path& sessionFolder, const Session& session,
                               std::string_view condition, const AthleteFacts& athlete,
                               const OwnMeasures& own = {});

/// Pure: the content of a sheet of two side-view clips already read. A clip without a step that has
/// hip and two more near landmarks at the instants shown is an Error that names it.
Outcome<SheetContent> sheetContent(const SheetClip& fresh, const SheetClip& fatigued,
                                   const Session& session, const Athlete& athlete,
                                   const std::vector<Cue>& cues, const SheetChoice& choice = {});

/// The content of a session's sheet: its fresh and its fatigued clip from one side, whose files it
/// reads. A session without both, or without a step to show, is an Error that says what is missing.
Outcome<SheetContent> sheetContent(const std::filesystem::path& sessionFolder,
                                   const Session& session, const Athlete& athlete,
                                   const std::vector<Cue>& cues, const SheetChoice& choice = {});

/// The same sheet with lengths and speeds in other units: rows, findings, labels and reasons.
[[nodiscard]] SheetContent toldIn(SheetContent content, Lengths lengths);

} // namespace latemile
