// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/marking.hpp"
#include "core/measures/readings.hpp"
#include "core/outcome.hpp"
#include "core/scene/scene.hpp"
#include "core/store/consent.hpp"
#include "core/store/screening.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace latemile {

/// The person filmed (athlete.json). Lengths cm, mass kg; absent where not known.
struct Athlete {
    std::string code; ///< folder name and the name shown when names are hidden
    std::string name;
    std::optional<double> heightCm;
    std::optional<double> legLengthCm;
    std::optional<double> massKg;
    std::string note;
    bool minor{}; ///< consent is a guardian's to give
    std::optional<Consent> consent;
    std::string unknown; ///< fields this version does not know, as JSON text; written back
    bool operator==(const Athlete&) const = default;
};

/// One video file of a session with all that was said about it.
struct SessionClip {
    std::string file;             ///< below the session's folder: "clips/fresh.mp4"
    std::string condition;        ///< "fresh", "fatigued", "other"
    std::optional<double> minute; ///< into the run
    std::optional<double> inclinePercent;
    std::string shoes;
    std::optional<double> exertion; ///< perceived, 0 to 10
    std::optional<bool> pain;
    Scene scene;
    Marking marking;
    std::string unknown; ///< as of Athlete
    bool operator==(const SessionClip&) const = default;
};

/// Which moments the coach wants to see on the sheet; empty: the program's choice.
struct StillWish {
    std::optional<StepNumber> freshStep;
    std::optional<StepNumber> fatiguedStep;
    std::vector<Instant> instants; ///< at most two
    bool operator==(const StillWish&) const = default;
};

/// One filming day (session.json).
struct Session {
    std::string date; ///< ISO 8601: "2026-08-29"
    std::vector<SessionClip> clips;
    std::string note;
    std::string coach;
    std::vector<std::string> measures; ///< ids chosen for the sheet, before looking
    std::vector<std::string>
        cues; ///< ids of at most two cues chosen by the coach; empty: the program suggests
    bool measuresAfterLooking{}; ///< the choice of measures was changed with the numbers in sight
    StillWish stills;
    std::optional<Screening> screening; ///< none: the questions before filming were not asked
    std::string nextRefilm;             ///< ISO 8601; empty: four weeks on
    std::string unknown;                ///< as of Athlete
    bool operator==(const Session&) const = default;
};

/// `folder` holds session.json / athlete.json; faults name file and field.
Outcome<Session> readSession(const std::filesystem::path& folder);
Outcome<Athlete> readAthlete(const std::filesystem::path& file);
/// Atomic: the whole new document or the old one.
Outcome<void> writeSession(const Session& session, const std::filesystem::path& folder);
Outcome<void> writeAthlete(const Athlete& athlete, const std::filesystem::path& file);
/// In the place of `before`, which is what the caller had read. Where somebody else changed it
/// meanwhile theirs stands, `athlete` is kept beside it as athlete.other-1.json, and an Error of
/// kind Inconsistent says so.
Outcome<void> keepAthlete(const Athlete& athlete, const Athlete& before,
                          const std::filesystem::path& file);

/// The first clip of a condition filmed from a side; nothing where there is none.
[[nodiscard]] const SessionClip* findClip(const Session& session, std::string_view condition);
/// The first clip of a condition and view.
[[nodiscard]] const SessionClip* findClip(const Session& session, std::string_view condition,
                                          View view);

/// Opens the clip's frame index and computes its readings, those of the coach's own measures too.
Outcome<Readings> readingsOf(const std::filesystem::path& sessionFolder, const Session& session,
                             const SessionClip& clip, const AthleteFacts& athlete,
                             const OwnMeasures& own);

} // namespace latemile
