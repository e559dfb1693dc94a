// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/film/film_plan.hpp"

#include "core/sheet/sheet_stills.hpp"
#include "core/sheet/still_choice.hpp"
#include "core/sheet/still_crop.hpp"
#include "core/sheet/still_drawing.hpp"

#include <algorithm>
#include <cmath>
#include <deque>

namespace latemile {

namespace {

/// A moment that both sides of a film come to together.
struct Stop {
    Seconds at{};
    const Step* step{};
    std::optional<Instant> stands; ///< the film stands here
};

/// A clip with what the film needs of it; keeps references.
struct Source {
    const SheetClip& clip;
    Plane plane;
    bool fatigued{};
    std::vector<Stop> stops{};
    Still framed{};        ///< the first that stands, with the crop of all
    PixelPoint firstHip{}; ///< on it
};

/// The near steps to show, as many as are wished and can be had.
std::vector<const Step*> stepsToShow(const SheetClip& clip, std::optional<StepNumber> from,
                                     int count)
{
    const auto& steps = clip.readings.steps;
    std::vector<const Step*> chosen;
    for (const auto& step : steps) {
        const bool wanted = step.foot == nearFootOf(clip.clip.scene.view) &&
                            (!from || step.number >= *from) &&
                            static_cast<int>(chosen.size()) < count;
        if (wanted && canBeShown(step, clip.clip.marking, clip.index, defaultStillInstants())) {
            chosen.push_back(&step);
        }
    }
    return chosen;
}

/// Contact, mid-stance and toe-off of each step; before the first and after the last a little more.
std::vector<Stop> stopsOf(const SheetClip& clip, const std::vector<const Step*>& steps)
{
    constexpr Seconds before{0.1};
    const auto last = clip.index.times().back();
    std::vector<Stop> stops{
        {std::max(Seconds{0}, steps.front()->contact - before), steps.front(), std::nullopt}};
    for (const auto* step : steps) {
        stops.push_back({step->contact, step, Instant::Contact});
        stops.push_back({*step->midStance(), step, Instant::MidStance});
        stops.push_back({*step->toeOff, step, std::nullopt});
    }
    const auto end = steps.back()->strideEnd.value_or(*steps.back()->toeOff + Seconds{0.2});
    stops.push_back({std::min(end, last), steps.back(), std::nullopt});
    return stops;
}

Outcome<Source> sourceOf(const SheetClip& clip, bool fatigued, std::optional<StepNumber> from,
                         int count)
{
    ASSIGN_OR_RETURN(auto plane, Plane::from(clip.clip.scene));
    const auto steps = stepsToShow(clip, from, count);
    if (steps.empty()) {
        return fail(Error::Kind::Inconsistent,
                    "There is no step to film in " + clip.clip.file +
                        (from ? " from step " + std::to_string(from->value) + " on" : "") +
                        ": mark hip, knee and ankle at contact and mid-stance of a near-side "
                        "step.");
    }
    return Source{.clip = clip,
                  .plane = std::move(plane),
                  .fatigued = fatigued,
                  .stops = stopsOf(clip, steps)};
}

/// The measured lines of a standing picture, named, since no table stands beside a film. One step
/// of an upper-body measure is no reading of it, and what nobody confirmed goes to no athlete:
/// their lines stand without a number.
std::vector<StillMeasured> measuredOn(const Still& still, const Source& source,
                                      const FilmWish& wish)
{
    const auto& ids = wish.measures.empty() ? defaultSheetMeasures() : wish.measures;
    std::vector<StillMeasured> measured;
    for (const auto& id : ids) {
        const auto* measure = findMeasure(id);
        if (measure == nullptr || measure->instant != still.instant) {
            continue;
        }
        auto drawn = drawingOf(*measure, source.clip.clip.marking, still.frame, source.plane);
        if (!drawn) {
            continue;
        }
        drawn->label = measure->name;
        const auto* reading = readingAt(source.clip.readings, *measure, still.step);
        if (reading != nullptr && reading->confirmed && measure->feet != Feet::Together) {
            drawn->value = reading->value;
            drawn->se = reading->se;
            drawn->label +=
                " " + readingWords(*reading->value, reading->se, *measure, wish.lengths);
        }
        measured.push_back(std::move(*drawn));
    }
    return measured;
}

Still stillAt(const Source& source, FrameNumber frame, const Stop& stop)
{
    Still still;
    still.fatigued = source.fatigued;
    still.instant = stop.stands.value_or(Instant::Contact);
    still.step = stop.step->number;
    still.clip = source.clip.file;
    still.captureRate = source.clip.clip.scene.captureRate;
    still.frame = frame;
    still.landmarks = nearLandmarks(source.clip.clip.marking, frame);
    still.segments = nearSegments(source.clip.clip.marking, frame);
    return still;
}

const Mark* hipAt(const Source& source, FrameNumber frame)
{
    return source.clip.clip.marking.find({frame, BodySide::Near, Landmark::Hip});
}

/// Where the hip is at a time, between the stops where it is marked: over ground the runner passes
/// through the picture, and the film goes along.
double hipAcross(const Source& source, Seconds at)
{
    std::optional<std::pair<Seconds, double>> earlier;
    for (const auto& stop : source.stops) {
        if (!stop.stands) {
            continue;
        }
        const auto* hip = hipAt(source, *frameOf(*stop.step, *stop.stands, source.clip.index));
        if (at <= stop.at || &stop == &source.stops.back()) {
            if (!earlier) {
                return hip->at.u;
            }
            const double share =
                std::clamp((at - earlier->first) / (stop.at - earlier->first), 0.0, 1.0);
            return std::lerp(earlier->second, hip->at.u, share);
        }
        earlier = {stop.at, hip->at.u};
    }
    return earlier->second;
}

/// One crop for all sides and pictures: of one size in centimetres, the hip of the first contact in
/// one place.
void frameAlike(std::vector<Source>& sources)
{
    const bool scaled =
        std::ranges::all_of(sources, [](const Source& source) { return source.plane.hasScale(); });
    std::deque<Still> stills; // the inputs point into it
    std::vector<CropInput> inputs;
    std::vector<std::size_t> firsts;
    for (const auto& source : sources) {
        firsts.push_back(stills.size());
        for (const auto& stop : source.stops) {
            if (stop.stands) {
                const auto frame = *frameOf(*stop.step, *stop.stands, source.clip.index);
                const auto hip = hipAt(source, frame)->at;
                stills.push_back(stillAt(source, frame, stop));
                inputs.push_back(
                    {&stills.back(), hip, scaled ? source.plane.cmPerPixel(hip) : 1.0});
            }
        }
    }
    cropAlike(inputs);
    for (std::size_t i = 0; i < sources.size(); ++i) {
        sources[i].framed = stills[firsts[i]];
        sources[i].firstHip = inputs[firsts[i]].hip;
    }
}

/// On a belt the runner stays, and a crop that moved with every mark would tremble.
bool passesThrough(const Source& source)
{
    const double width = source.framed.cropTo.u - source.framed.cropFrom.u;
    const auto [first, last] = std::pair{hipAcross(source, source.stops.front().at),
                                         hipAcross(source, source.stops.back().at)};
    return std::abs(last - first) > 0.5 * width;
}

void addCrop(Still& still, const Source& source, Seconds at, bool passes)
{
    const double along = passes ? hipAcross(source, at) - source.firstHip.u : 0.0;
    still.cropFrom = {source.framed.cropFrom.u + along, source.framed.cropFrom.v};
    still.cropTo = {source.framed.cropTo.u + along, source.framed.cropTo.v};
    if (const auto* hip = hipAt(source, still.frame)) {
        still.plumb = plumbThrough(hip->at, still.cropFrom.v, still.cropTo.v, source.plane);
    }
}

/// Pictures it takes to play from one stop to the next.
int picturesBetween(const Stop& from, const Stop& to, double slower)
{
    return std::max(1,
                    static_cast<int>(std::lround((to.at - from.at).count() * slower * filmRate)));
}

/// The shots of one side between two stops, and where it stands at the second.
void addShots(FilmPlan::Side& side, const Source& source, std::size_t stop, int pictures,
              const FilmWish& wish, bool passes)
{
    const auto& from = source.stops[stop];
    const auto& to = source.stops[stop + 1];
    const auto add = [&](Seconds at, FrameNumber frame, const Stop& shown, bool stands) {
        FilmShot shot{stillAt(source, frame, shown), at, at - shown.step->contact, stands};
        if (stands && wish.numbers) {
            shot.still.measured = measuredOn(shot.still, source, wish);
        }
        addCrop(shot.still, source, at, passes);
        side.shots.push_back(std::move(shot));
    };
    for (int i = 0; i < pictures; ++i) {
        const auto at = std::min(to.at, from.at + Seconds{i / (wish.slower * filmRate)});
        add(at, source.clip.index.nearest(at), from, false);
    }
    if (to.stands) {
        const auto frame = *frameOf(*to.step, *to.stands, source.clip.index);
        const auto standing = static_cast<int>(std::lround(filmStand.count() * filmRate));
        for (int i = 0; i < standing; ++i) {
            add(to.at, frame, to, true);
        }
    }
}

FilmPlan planOf(std::vector<Source> sources, const FilmWish& wish)
{
    frameAlike(sources);
    std::size_t stops = sources.front().stops.size();
    for (const auto& source : sources) {
        stops = std::min(stops, source.stops.size());
    }
    FilmPlan plan;
    plan.slower = wish.slower;
    for (const auto& source : sources) {
        plan.sides.push_back({source.fatigued, minuteWords(source.clip.clip.minute), {}});
    }
    for (std::size_t stop = 0; stop + 1 < stops; ++stop) {
        int pictures = 0;
        for (const auto& source : sources) {
            pictures = std::max(
                pictures, picturesBetween(source.stops[stop], source.stops[stop + 1], wish.slower));
        }
        for (std::size_t i = 0; i < sources.size(); ++i) {
            addShots(plan.sides[i], sources[i], stop, pictures, wish, passesThrough(sources[i]));
        }
    }
    return plan;
}

} // namespace

Outcome<FilmPlan> filmOf(const SheetClip& clip, const FilmWish& wish)
{
    const bool fatigued = clip.clip.condition == "fatigued";
    ASSIGN_OR_RETURN(auto source, sourceOf(clip, fatigued, wish.from, wish.steps));
    std::vector<Source> sources;
    sources.push_back(std::move(source));
    return planOf(std::move(sources), wish);
}

Outcome<FilmPlan> filmOf(const SheetClip& fresh, const SheetClip& fatigued, const FilmWish& wish)
{
    // As many steps as both have: each side's last stop is the end of its last step.
    const auto has = [&](const SheetClip& clip, std::optional<StepNumber> from) {
        return static_cast<int>(stepsToShow(clip, from, wish.steps).size());
    };
    const int steps =
        std::max(1, std::min(has(fresh, wish.from), has(fatigued, wish.fatiguedFrom)));
    ASSIGN_OR_RETURN(auto first, sourceOf(fresh, false, wish.from, steps));
    ASSIGN_OR_RETURN(auto second, sourceOf(fatigued, true, wish.fatiguedFrom, steps));
    std::vector<Source> sources;
    sources.push_back(std::move(first));
    sources.push_back(std::move(second));
    return planOf(std::move(sources), wish);
}

FilmClock clockOf(const FilmPlan::Side& side)
{
    return [&shots = side.shots](Seconds real) {
        const auto shown = std::ranges::lower_bound(shots, real, {}, &FilmShot::at);
        return Seconds{static_cast<double>(shown - shots.begin()) / filmRate};
    };
}

} // namespace latemile
