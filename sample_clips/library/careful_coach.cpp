// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/library/careful_coach.hpp"

#include "core/marks/steps.hpp"

#include <cmath>
#include <numbers>
#include <random>

namespace latemile {

namespace {

class Clicks {
public:
    Clicks(const SampleTruth& truth, unsigned seed, double error)
        : m_truth(truth), m_random(seed), m_error(error)
    {
    }

    void place(FrameNumber frame, BodySide side, Landmark landmark)
    {
        const auto& of = m_truth.frames[static_cast<std::size_t>(frame.value)];
        const bool fromLeft = side == BodySide::Near || side == BodySide::Left;
        const auto& points = fromLeft ? of.left : of.right;
        if (const auto found = points.find(landmark); found != points.end()) {
            put({frame, side, landmark}, found->second);
        }
    }

    void put(const MarkKey& key, PixelPoint at)
    {
        if (!m_marks.contains(key)) {
            m_marks[key] = {{clicked(at.u), clicked(at.v)}, Origin::Placed, std::nullopt};
        }
    }

    [[nodiscard]] std::map<MarkKey, Mark> taken() { return std::move(m_marks); }

private:
    double clicked(double true_)
    {
        // The library's own distributions differ between machines, the generator does not.
        const double share =
            static_cast<double>(m_random()) / static_cast<double>(std::mt19937::max());
        const double at = true_ + m_error * (2.0 * share - 1.0);
        return m_error > 0.0 ? std::round(4.0 * at) / 4.0 : at;
    }

    const SampleTruth& m_truth;
    std::mt19937 m_random;
    double m_error;
    std::map<MarkKey, Mark> m_marks;
};

FrameIndex indexOf(const SampleTruth& truth)
{
    std::vector<Seconds> times;
    for (const auto& frame : truth.frames) {
        times.push_back(frame.time);
    }
    return FrameIndex(std::move(times));
}

std::vector<Stance> stancesOf(const SampleTruth& truth, const FrameIndex& index)
{
    std::vector<Stance> stances;
    for (const auto& contact : truth.contacts) {
        if (contact.firstOn && contact.firstOn->value > 0) {
            const auto toeOff = contact.firstClear
                                    ? std::optional(index.eventTime(*contact.firstClear))
                                    : std::nullopt;
            stances.push_back({contact.foot, index.eventTime(*contact.firstOn), toeOff,
                               Origin::Placed, std::nullopt});
        }
    }
    return stances;
}

void markNearStep(Clicks& clicks, const Step& step, const FrameIndex& index)
{
    const auto contact = *frameOf(step, Instant::Contact, index);
    for (const auto landmark : sideViewLandmarks) {
        clicks.place(contact, BodySide::Near, landmark);
    }
    for (const auto landmark : {Landmark::Hip, Landmark::Knee, Landmark::Ankle}) {
        clicks.place({contact.value - 1}, BodySide::Near, landmark);
    }
    for (const auto instant : {Instant::MidStance, Instant::ToeOff}) {
        if (const auto frame = frameOf(step, instant, index)) {
            for (const auto landmark : sideViewLandmarks) {
                clicks.place(*frame, BodySide::Near, landmark);
            }
        }
    }
    if (step.toeOff) {
        for (const double share : {0.30, 0.40}) {
            clicks.place(index.nearest(step.contact + share * (*step.toeOff - step.contact)),
                         BodySide::Near, Landmark::Toe);
        }
    }
}

void markFarStep(Clicks& clicks, const Step& step, const FrameIndex& index)
{
    clicks.place(*frameOf(step, Instant::Contact, index), BodySide::Far, Landmark::Ankle);
    if (const auto frame = frameOf(step, Instant::MidStance, index)) {
        for (const auto landmark : {Landmark::Ear, Landmark::Shoulder, Landmark::Hip}) {
            clicks.place(*frame, BodySide::Near, landmark);
        }
    }
}

void markRearStep(Clicks& clicks, const Step& step, const FrameIndex& index,
                  const SampleTruth& truth)
{
    const auto frame = frameOf(step, Instant::MidStance, index);
    if (!frame) {
        return;
    }
    for (const auto side : {BodySide::Left, BodySide::Right}) {
        for (const auto landmark :
             {Landmark::Shoulder, Landmark::Hip, Landmark::Knee, Landmark::Ankle, Landmark::Heel}) {
            clicks.place(*frame, side, landmark);
        }
    }
    const auto& of = truth.frames[static_cast<std::size_t>(frame->value)];
    if (of.leftPsis && of.rightPsis) {
        clicks.put({*frame, BodySide::Left, Landmark::Psis}, *of.leftPsis);
        clicks.put({*frame, BodySide::Right, Landmark::Psis}, *of.rightPsis);
    }
}

double toHalfPixel(double value)
{
    return std::round(2.0 * value) / 2.0;
}

} // namespace

Marking markedByCarefulCoach(const SampleTruth& truth, unsigned seed, double clickError)
{
    const auto index = indexOf(truth);
    Marking marking;
    marking.stances = stancesOf(truth, index);
    Clicks clicks(truth, seed, clickError);
    for (const auto& step : stepsOf(marking.stances, index)) {
        if (truth.view == View::Rear) {
            markRearStep(clicks, step, index, truth);
        } else if (step.foot == Foot::Left) {
            markNearStep(clicks, step, index);
        } else {
            markFarStep(clicks, step, index);
        }
    }
    marking.marks = clicks.taken();
    return marking;
}

Scene drawnByCarefulCoach(const SampleTruth& truth)
{
    Scene scene;
    scene.view = truth.view;
    scene.travel = truth.view == View::Rear ? Travel::Right : Travel::Left;
    scene.beltSpeed = truth.speed;
    if (truth.poleBottom && truth.poleTop) {
        scene.scale =
            ScaleLine{{toHalfPixel(truth.poleBottom->u), toHalfPixel(truth.poleBottom->v)},
                      {toHalfPixel(truth.poleTop->u), toHalfPixel(truth.poleTop->v)},
                      200.0};
    }
    // A plumb line hung beside the runner: the pole stands near the edge, where perspective leans
    // it.
    constexpr double length = 560.0;
    const double lean = length * std::sin(truth.tiltDegrees * std::numbers::pi / 180.0);
    scene.plumb = PlumbLine{{toHalfPixel(640.0 + lean / 2.0), 60.0},
                            {toHalfPixel(640.0 - lean / 2.0), 60.0 + length}};
    return scene;
}

} // namespace latemile
