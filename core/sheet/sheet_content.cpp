// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sheet/sheet_content.hpp"

#include "core/sheet/clinician_words.hpp"
#include "core/sheet/sheet_rows.hpp"
#include "core/sheet/sheet_stills.hpp"
#include "core/sheet/still_choice.hpp"

#include <algorithm>

namespace latemile {
namespace {

std::vector<CueText> chosenCues(const Session& session, const Comparison& comparison,
                                const std::vector<Cue>& cues)
{
    std::vector<const Cue*> picked;
    if (session.cues.empty()) {
        for (const FittingCue& fitting : fittingCues(comparison, cues)) {
            picked.push_back(fitting.cue);
        }
    }
    for (const std::string& id : session.cues) {
        const auto found =
            std::find_if(cues.begin(), cues.end(), [&](const Cue& cue) { return cue.id == id; });
        if (found != cues.end() && picked.size() < 2) {
            picked.push_back(&*found);
        }
    }
    std::vector<CueText> texts;
    for (const Cue* cue : picked) {
        const ComparisonRow* reason = reasonFor(*cue, comparison);
        texts.push_back({cue->think, cue->why, cue->drill, cue->caution,
                         reason ? reason->measure : std::string()});
    }
    return texts;
}

/// Of contacts alone where the measures take nothing else.
std::string confirmedContacts(const SheetClip& fresh, const SheetClip& fatigued)
{
    std::size_t all = 0;
    std::ptrdiff_t confirmed = 0;
    for (const auto* clip : {&fresh, &fatigued}) {
        all += clip->readings.steps.size();
        confirmed += std::ranges::count(clip->readings.steps, Origin::Placed, &Step::origin);
    }
    return "The coach confirmed " + std::to_string(confirmed) + " of " + std::to_string(all) +
           " contacts.";
}

std::string confirmedWords(const SheetClip& fresh, const SheetClip& fatigued,
                           const std::vector<std::string>& measures)
{
    const AskedLandmarks asked(measures, fresh.readings.own);
    const auto countOf = [&asked](const SheetClip& clip) {
        return countInstants(clip.readings.steps, clip.clip.marking, clip.index,
                             nearFootOf(clip.clip.scene.view), asked);
    };
    const auto one = countOf(fresh);
    const auto two = countOf(fatigued);
    if (one.marked + two.marked == 0) {
        return confirmedContacts(fresh, fatigued);
    }
    return "The coach confirmed " + std::to_string(one.confirmed + two.confirmed) + " of " +
           std::to_string(one.marked + two.marked) + " marked instants.";
}

void addWords(SheetContent& content, const SheetClip& fresh, const SheetClip& fatigued,
              const Session& session, const std::vector<std::string>& measures)
{
    content.date = dateWords(session.date);
    content.coach = session.coach;
    content.note = session.note;
    content.freshMinute = minuteWords(fresh.clip.minute);
    content.fatiguedMinute = minuteWords(fatigued.clip.minute);
    content.freshSpeed = fresh.clip.scene.beltSpeed;
    content.fatiguedSpeed = fatigued.clip.scene.beltSpeed;
    content.inclinePercent = fresh.clip.inclinePercent;
    content.cautions = usualCautions();
    content.confirmed = confirmedWords(fresh, fatigued, measures);
    content.errorWords = errorWords();
    if (session.measuresAfterLooking) {
        content.errorWords += ' ' + afterLookingWords();
    }
}

} // namespace

Outcome<SheetContent> sheetContent(const SheetClip& fresh, const SheetClip& fatigued,
                                   const Session& session, const Athlete& athlete,
                                   const std::vector<Cue>& cues, const SheetChoice& choice)
{
    const auto& measures = session.measures.empty() ? defaultSheetMeasures() : session.measures;
    const Foot foot = nearFootOf(fresh.clip.scene.view);
    const auto& wish = session.stills;
    const auto& instants = wish.instants.empty() ? defaultStillInstants() : wish.instants;
    const auto freshStep = choice.freshStep ? choice.freshStep : wish.freshStep;
    const auto fatiguedStep = choice.fatiguedStep ? choice.fatiguedStep : wish.fatiguedStep;
    ASSIGN_OR_RETURN(const auto first, shownOf(fresh, foot, measures, freshStep, instants));
    ASSIGN_OR_RETURN(const auto second, shownOf(fatigued, foot, measures, fatiguedStep, instants));
    SheetContent content;
    content.athlete = choice.hideName || athlete.name.empty() ? athlete.code : athlete.name;
    const auto comparison = compare(fresh.readings, fatigued.readings);
    content.compared = rowsForSheet(comparison, measures, foot);
    content.own = comparison.own;
    content.stills = stillsOf(first, second, content.compared, instants, content.own);
    addWords(content, fresh, fatigued, session, measures);
    content.seeClinician = clinicianWords(session);
    if (content.seeClinician.empty()) {
        content.cues = chosenCues(session, {content.compared}, cues);
    }
    return toldIn(std::move(content), Lengths::Centimetres);
}

} // namespace latemile
