// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sheet/sheet_cues.hpp"

#include "core/sheet/clinician_words.hpp"
#include "core/sheet/sheet_rows.hpp"

namespace latemile {

std::vector<std::string> cuesOnSheet(const Session& session, const Readings& fresh,
                                     const Readings& fatigued, const std::vector<Cue>& cues)
{
    if (!clinicianWords(session).empty()) {
        return {};
    }
    if (!session.cues.empty()) {
        return session.cues;
    }
    const auto& measures = session.measures.empty() ? defaultSheetMeasures() : session.measures;
    const Foot foot = fresh.clip.scene.view == View::RightSide ? Foot::Right : Foot::Left;
    const Comparison shown{rowsForSheet(compare(fresh, fatigued), measures, foot)};
    std::vector<std::string> ids;
    for (const FittingCue& fitting : fittingCues(shown, cues)) {
        ids.push_back(fitting.cue->id);
    }
    return ids;
}

} // namespace latemile
