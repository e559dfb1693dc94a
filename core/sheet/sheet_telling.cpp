// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sheet/sheet_content.hpp"
#include "core/sheet/sheet_rows.hpp"

namespace latemile {

std::vector<std::string> usualCautions()
{
    return {"These numbers come from video and carry the errors shown. They describe one day; they "
            "are no diagnosis and no forecast.",
            "Change one thing at a time and ease it in over some weeks, a little in each easy run.",
            "If anything hurts, stop and see a licensed clinician first.",
            "Keep to the rules of your club, track or gym, and to the treadmill's own safety "
            "notes."};
}

std::string errorWords()
{
    return "\u00b1 is the 95 % error of the change (steps, marking, camera, scale); a clear change "
           "is larger than its error.";
}

std::string afterLookingWords()
{
    return "The measures were chosen with the numbers in sight: among many looked at, one seems "
           "clear by chance now and then.";
}

const std::vector<Instant>& defaultStillInstants()
{
    static const std::vector<Instant> instants{Instant::Contact, Instant::MidStance};
    return instants;
}

const std::vector<std::string>& defaultSheetMeasures()
{
    static const std::vector<std::string> measures{"head_forward",      "trunk_lean",
                                                   "hips_behind",       "foot_ahead",
                                                   "knee_flex_contact", "contact_time"};
    return measures;
}

SheetContent toldIn(SheetContent content, Lengths lengths)
{
    content.speed =
        speedWords(content.freshSpeed, content.fatiguedSpeed, content.inclinePercent, lengths);
    content.rows.clear();
    for (std::size_t i = 0; i < content.compared.size(); ++i) {
        content.rows.push_back(sheetRow(content.compared[i], letterOf(i), lengths, content.own));
    }
    for (CueText& cue : content.cues) {
        for (std::size_t i = 0; i < content.compared.size(); ++i) {
            cue.letter = content.compared[i].measure == cue.measure ? letterOf(i) : cue.letter;
        }
    }
    for (Still& still : content.stills) {
        for (StillMeasured& measured : still.measured) {
            const Measure* measure = content.own.find(measured.measure);
            // One step of an upper-body measure is no reading of it: only steps of both feet are.
            const bool ofOneStep = measure && measure->feet != Feet::Together;
            if (ofOneStep && measured.value) {
                measured.label = readingWords(*measured.value, measured.se, *measure, lengths);
            }
        }
    }
    return content;
}

} // namespace latemile
