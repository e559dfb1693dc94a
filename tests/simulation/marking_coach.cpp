// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/simulation/marking_coach.hpp"

#include "core/marks/steps.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace latemile::simulation {

namespace {

constexpr double judgement = 0.5;        // of a frame, as in core/marks/steps.cpp
constexpr double commonJudgement = 0.25; // of it the same for all, as in core/measures/propagation

double normal(Random& random)
{
    return std::normal_distribution<double>()(random);
}

PixelPoint shaken(PixelPoint at, double sigma, Random& random)
{
    const double u = normal(random);
    return {at.u + sigma * u, at.v + sigma * normal(random)};
}

constexpr std::array<std::pair<Landmark, std::size_t>, 11> places{{{Landmark::Ear, 0},
                                                                   {Landmark::Shoulder, 1},
                                                                   {Landmark::Elbow, 2},
                                                                   {Landmark::Wrist, 3},
                                                                   {Landmark::Hip, 4},
                                                                   {Landmark::Knee, 5},
                                                                   {Landmark::Ankle, 6},
                                                                   {Landmark::Heel, 7},
                                                                   {Landmark::Toe, 8},
                                                                   {Landmark::HeelTop, 9},
                                                                   {Landmark::Psis, 10}}};

class Hand {
public:
    Hand(const TrueRun& run, double from, MarkedClip& clip, Random& random)
        : m_run(run), m_from(from), m_clip(clip), m_random(random),
          m_cmPerPixel(1.0 / run.truth.pixelsPerCm)
    {
    }

    void mark(FrameNumber frame, BodySide side)
    {
        const double time = m_from + m_clip.index.time(frame).count();
        const auto points = maker::placesOf(m_run.model.pose(time), footOf(side));
        for (const auto& [landmark, i] : places) {
            put({frame, side, landmark}, points[i]);
        }
        if (side == BodySide::Near) {
            put({frame, side, Landmark::Asis}, points[10] + asisFromPsis);
        }
    }

private:
    void put(const MarkKey& key, maker::Vec3 place)
    {
        const double sigma = std::max(defaultClickError(key.landmark) / m_cmPerPixel, 0.5);
        if (!m_clip.marking.marks.contains(key)) {
            m_clip.marking.marks[key] = {shaken(m_run.camera.project(place), sigma, m_random),
                                         Origin::Placed, std::nullopt};
        }
    }

    [[nodiscard]] maker::Foot footOf(BodySide side) const
    {
        const auto near = m_run.recipe.camera.view == maker::View::LeftSide ? maker::Foot::Left
                                                                            : maker::Foot::Right;
        switch (side) {
        case BodySide::Near:
            return near;
        case BodySide::Far:
            return maker::other(near);
        case BodySide::Left:
            return maker::Foot::Left;
        case BodySide::Right:
            break;
        }
        return maker::Foot::Right;
    }

    const TrueRun& m_run;
    double m_from;
    MarkedClip& m_clip;
    Random& m_random;
    double m_cmPerPixel;
};

/// The frames a coach goes to for a step.
std::set<FrameNumber> framesOf(const Step& step, const FrameIndex& index)
{
    std::set<FrameNumber> frames;
    for (const auto instant : {Instant::Contact, Instant::MidStance, Instant::ToeOff}) {
        if (const auto frame = frameOf(step, instant, index)) {
            frames.insert(*frame);
        }
    }
    for (const double share : {0.30, 0.40}) { // where the sole lies flat
        if (step.toeOff) {
            frames.insert(index.nearest(step.contact + share * (*step.toeOff - step.contact)));
        }
    }
    return frames;
}

void markAll(Hand& hand, const MarkedClip& clip, Marked which)
{
    const bool side = isSideView(clip.conditions.scene.view);
    const auto mark = [&](FrameNumber frame) {
        hand.mark(frame, side ? BodySide::Near : BodySide::Left);
        hand.mark(frame, side ? BodySide::Far : BodySide::Right);
    };
    if (which == Marked::EveryFrame) {
        for (std::int64_t i = 0; i < clip.index.size(); ++i) {
            mark({i});
        }
        return;
    }
    for (const auto& step : stepsOf(clip.marking.stances, clip.index)) {
        for (const auto frame : framesOf(step, clip.index)) {
            mark(frame);
        }
    }
}

FrameIndex indexOf(double framesASecond, double seconds)
{
    std::vector<Seconds> times;
    for (int i = 0; i / framesASecond < seconds; ++i) {
        times.push_back(Seconds{i / framesASecond});
    }
    return FrameIndex(std::move(times));
}

/// The half-frame rule's time of an event as judged, nothing where the clip does not show it.
std::optional<Seconds> judged(double event, double commonShare, const FrameIndex& index,
                              Random& random)
{
    const double frame = index.interval({1}).count();
    const double own = std::sqrt(judgement * judgement - commonJudgement * commonJudgement);
    const double seen = event + frame * (commonShare + own * normal(random));
    const auto first = index.firstAtOrAfter(Seconds{seen});
    if (first.value < 1 || first.value >= index.size()) {
        return std::nullopt;
    }
    return index.eventTime(first);
}

} // namespace

Scene drawnByHand(const TrueRun& run, Random& random)
{
    Scene scene = run.scene;
    scene.scale->a = shaken(scene.scale->a, 1.0, random);
    scene.scale->b = shaken(scene.scale->b, 1.0, random);
    scene.scale->lengthCm += 0.5 * normal(random);
    scene.plumb->top = shaken(scene.plumb->top, 1.0, random);
    scene.plumb->bottom = shaken(scene.plumb->bottom, 1.0, random);
    scene.beltSpeed = *scene.beltSpeed * (1.0 + 0.0153 * normal(random));
    return scene;
}

Marking markedByHand(const TrueRun& run, const Scene& scene, Marked which, double framesASecond,
                     double from, double seconds, Random& random)
{
    Marking marking;
    auto& clip = marking.clip;
    clip.index = indexOf(framesASecond, seconds);
    from += std::uniform_real_distribution<double>(0.0, 1.0 / framesASecond)(random);
    clip.conditions.scene = scene;
    clip.conditions.date = "2026-08-29";
    clip.conditions.captureRate = framesASecond;
    clip.athlete.legLengthCm = run.truth.legLengthCm;
    clip.athlete.massKg = runnersMass;
    const double contacts = commonJudgement * normal(random);
    const double toeOffs = commonJudgement * normal(random);
    const auto& all = run.truth.contacts;
    for (std::size_t i = 0; i < all.size(); ++i) {
        const bool inside = all[i].contact > from + 0.03 && all[i].toeOff < from + seconds - 0.03;
        if (!inside) {
            continue;
        }
        const auto contact = judged(all[i].contact - from, contacts, clip.index, random);
        const auto toeOff = judged(all[i].toeOff - from, toeOffs, clip.index, random);
        if (contact && toeOff) {
            marking.firstContact = marking.steps == 0 ? i : marking.firstContact;
            ++marking.steps;
            clip.marking.stances.push_back(
                {all[i].foot == maker::Foot::Left ? latemile::Foot::Left : latemile::Foot::Right,
                 *contact, toeOff, Origin::Placed, std::nullopt});
        }
    }
    Hand hand(run, from, clip, random);
    markAll(hand, clip, which);
    return marking;
}

} // namespace latemile::simulation
