// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sheet/sheet_stills.hpp"

#include "core/sheet/sheet_rows.hpp"
#include "core/sheet/still_choice.hpp"
#include "core/sheet/still_crop.hpp"
#include "core/sheet/still_drawing.hpp"

#include <algorithm>

namespace latemile {

Foot nearFootOf(View view)
{
    return view == View::RightSide ? Foot::Right : Foot::Left;
}

const Reading* readingAt(const Readings& readings, const Measure& measure, StepNumber step)
{
    const auto found =
        std::find_if(readings.readings.begin(), readings.readings.end(), [&](const Reading& one) {
            return one.measure == measure.id && one.step == step && one.value;
        });
    return found == readings.readings.end() ? nullptr : &*found;
}

namespace {

/// "contact and mid-stance"
std::string wordsOf(const std::vector<Instant>& instants)
{
    std::string words;
    for (const Instant instant : instants) {
        words += (words.empty() ? "" : " and at ") + std::string(nameOf(instant));
    }
    return words;
}

Outcome<Step> stepToShow(const SheetClip& clip, Foot foot, const std::vector<std::string>& measures,
                         std::optional<StepNumber> chosen, const std::vector<Instant>& instants)
{
    const auto& steps = clip.readings.steps;
    if (chosen) {
        const auto found = std::find_if(steps.begin(), steps.end(),
                                        [&](const Step& step) { return step.number == *chosen; });
        if (found != steps.end() && found->foot == foot &&
            canBeShown(*found, clip.clip.marking, clip.index, instants)) {
            return *found;
        }
    }
    const auto typical =
        typicalStep(clip.readings, clip.clip.marking, clip.index, foot, measures, instants);
    if (!typical) {
        return fail(Error::Kind::Inconsistent,
                    "The sheet needs a step to show: mark hip, knee and ankle at " +
                        wordsOf(instants) + " of a near-side step in " + clip.clip.file + ".");
    }
    return *typical;
}

std::vector<StillMeasured> measuredOn(const Still& still, const SheetClip& clip, const Plane& plane,
                                      const std::vector<ComparisonRow>& rows,
                                      const OwnMeasures& own)
{
    std::vector<StillMeasured> measured;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const Measure* measure = own.find(rows[i].measure);
        const Reading* reading = measure ? readingAt(clip.readings, *measure, still.step) : nullptr;
        // What nobody confirmed goes to no athlete.
        if (!reading || !reading->confirmed || measure->instant != still.instant) {
            continue;
        }
        if (auto drawn = drawingOf(*measure, clip.clip.marking, still.frame, plane)) {
            drawn->letter = letterOf(i);
            drawn->value = reading->value;
            drawn->se = reading->se;
            measured.push_back(std::move(*drawn));
        }
    }
    return measured;
}

Still stillOf(const SheetClip& clip, const Step& step, Instant instant, const Plane& plane,
              const std::vector<ComparisonRow>& rows, const OwnMeasures& own)
{
    Still still;
    still.instant = instant;
    still.step = step.number;
    still.clip = clip.file;
    still.captureRate = clip.clip.scene.captureRate;
    still.frame = *frameOf(step, instant, clip.index);
    still.landmarks = nearLandmarks(clip.clip.marking, still.frame);
    still.segments = nearSegments(clip.clip.marking, still.frame);
    still.measured = measuredOn(still, clip, plane, rows, own);
    return still;
}

} // namespace

Outcome<Shown> shownOf(const SheetClip& clip, Foot foot, const std::vector<std::string>& measures,
                       std::optional<StepNumber> chosen, const std::vector<Instant>& instants)
{
    ASSIGN_OR_RETURN(auto plane, Plane::from(clip.clip.scene));
    ASSIGN_OR_RETURN(auto step, stepToShow(clip, foot, measures, chosen, instants));
    return Shown{clip, std::move(plane), std::move(step)};
}

std::vector<Still> stillsOf(const Shown& fresh, const Shown& fatigued,
                            const std::vector<ComparisonRow>& rows,
                            const std::vector<Instant>& instants, const OwnMeasures& own)
{
    const bool scaled = fresh.plane.hasScale() && fatigued.plane.hasScale();
    std::vector<Still> stills;
    std::vector<const Shown*> owners;
    for (const Instant instant : instants) {
        for (const Shown* shown : {&fresh, &fatigued}) {
            stills.push_back(stillOf(shown->clip, shown->step, instant, shown->plane, rows, own));
            stills.back().fatigued = shown == &fatigued;
            owners.push_back(shown);
        }
    }
    std::vector<CropInput> inputs;
    for (std::size_t i = 0; i < stills.size(); ++i) {
        const PixelPoint hip =
            owners[i]->clip.clip.marking.find({stills[i].frame, BodySide::Near, Landmark::Hip})->at;
        inputs.push_back({&stills[i], hip, scaled ? owners[i]->plane.cmPerPixel(hip) : 1.0});
    }
    cropAlike(inputs);
    for (std::size_t i = 0; i < stills.size(); ++i) {
        stills[i].plumb =
            plumbThrough(inputs[i].hip, stills[i].cropFrom.v, stills[i].cropTo.v, owners[i]->plane);
    }
    return stills;
}

} // namespace latemile
