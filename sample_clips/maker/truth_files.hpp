// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"
#include "sample_clips/maker/truth.hpp"

#include <filesystem>

namespace latemile::maker {

/// Which frames MARKS.csv holds.
enum class MarkFrames {
    All,
    Instants ///< each contact and toe-off with the frame before it, and mid-stance
};

/// All of `truth` as one JSON document, schema "latemile-clip-truth/1":
///   clip, recipe       the file's name and all that made it
///   video              width, height, frames, codec, container_rate, capture_rate, slow_motion
///   runner             stature_cm, leg_length_cm and segment lengths, speed_mps, near_side
///   scene              scale (ends in px, length_cm), ground_y_px, px_per_cm, focal_px, roll_deg,
///                      lens
///   landmarks          the order of the marks
///   frames             [{time_s, stamp, near|left: [[u, v] ...], far|right: [[u, v] ...]}]
///   contacts           [{foot, contact_s, toe_off_s, first_frame_on, first_frame_clear,
///                      rule_contact_s, rule_toe_off_s}]
///   readings           [{measure, unit, step, foot, instant, time_s, value, rule_time_s,
///                      rule_value}]
/// Pixels are those of the upright picture, v down, centres at integer + 0.5.
Outcome<void> writeTruth(const Truth& truth, const std::filesystem::path& file);

/// The exchange files as a perfect coach would have written them: marks without error, contacts by
/// the half-frame rule.
Outcome<void> writeMarks(const Truth& truth, const std::filesystem::path& file, MarkFrames frames);
Outcome<void> writeContacts(const Truth& truth, const std::filesystem::path& file);
Outcome<void> writeScene(const Truth& truth, const std::filesystem::path& file);

/// Beside CLIP.mp4: CLIP.truth.json, CLIP.MARKS.csv, CLIP.CONTACTS.csv and CLIP.SCENE.json.
Outcome<void> writeBeside(const Truth& truth, const std::filesystem::path& clip, MarkFrames frames);

} // namespace latemile::maker
