// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/remedies.hpp"

#include "core/rounding.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace latemile {

namespace {

constexpr double worthSaying = 0.95; // of the error before
constexpr double quarter = 0.25;     // of a variance: half of an error
constexpr double tapedCm = 0.3;      // a mark on a piece of tape (a choice of this project)
/// Of a belt's speed by tape measure and twenty rounds, as a share (a choice of this project).
constexpr double timedBelt = 0.003;

double square(double value)
{
    return value * value;
}

/// The largest of the marks' shares, with its side.
struct Worst {
    BodySide side{};
    Landmark landmark{};
    double variance{};
};

Worst worstOf(const DetailedShares& detail)
{
    Worst worst;
    for (std::size_t i = 0; i < detail.landmarks.size(); ++i) {
        if (detail.landmarks[i] > worst.variance) {
            worst = {static_cast<BodySide>(i / landmarkCount),
                     static_cast<Landmark>(i % landmarkCount), detail.landmarks[i]};
        }
    }
    return worst;
}

/// Variance of a mark in centimetres when the runner is twice as large in the picture, over what it
/// is now: a click on skin is off by centimetres, not pixels, until half a pixel is more than they.
double nearerFactor(const ClickErrors& clicks, Landmark landmark, double cmPerPixel)
{
    const auto errorAt = [&](double k) { return std::max(clicks.of(landmark), 0.5 * k); };
    return square(errorAt(cmPerPixel / 2.0) / errorAt(cmPerPixel));
}

/// Scale and plumb of what was drawn, as core/scene/plane.cpp takes them.
constexpr double tapeCm = 0.5;
constexpr double usualLineCm = 200.0;
constexpr double usualPlumbPx = 500.0;

class Remedies {
public:
    Remedies(const ErrorBudget& budget, const PreparedClip& clip, const Measure& measure)
        : m_budget(budget), m_clip(clip), m_measure(measure), m_before(std::sqrt(budget.sum())),
          m_cmPerPixel(clip.plane.cmPerPixel(middle(clip)))
    {
    }

    std::vector<Remedy> all()
    {
        addNearer();
        addFaster();
        addFramesBefore();
        addScaleLine();
        addPlumbLine();
        addTape();
        addBelt();
        addSteps();
        std::ranges::stable_sort(m_remedies, {}, &Remedy::seAfter);
        return std::move(m_remedies);
    }

private:
    static PixelPoint middle(const PreparedClip& clip)
    {
        const auto& scale = clip.conditions.scene.scale;
        return scale ? PixelPoint{(scale->a.u + scale->b.u) / 2.0, (scale->a.v + scale->b.v) / 2.0}
                     : PixelPoint{640.0, 360.0};
    }

    /// `less` variance is left out.
    void add(std::string what, double less)
    {
        const double after = std::sqrt(std::max(m_budget.sum() - less, 0.0));
        if (after > worthSaying * m_before) {
            return;
        }
        const auto number = [&](double value) { return fixedText(value, m_measure.decimals + 1); };
        Remedy remedy{std::move(what), after, {}};
        remedy.sentence = remedy.what + ": the error falls from " + number(m_before) + " to " +
                          number(after) + " " + std::string(symbolOf(m_measure.unit)) + ", by " +
                          fixedText(100.0 * (1.0 - after / m_before), 0) + " %.";
        m_remedies.push_back(std::move(remedy));
    }

    void addNearer()
    {
        double less = 0.0;
        for (std::size_t i = 0; i < m_budget.detail.landmarks.size(); ++i) {
            const auto landmark = static_cast<Landmark>(i % landmarkCount);
            less += m_budget.detail.landmarks[i] *
                    (1.0 - nearerFactor(m_clip.clicks, landmark, m_cmPerPixel));
        }
        if (const auto& line = m_clip.conditions.scene.scale) {
            const double tape = square(tapeCm / line->lengthCm);
            const double ends = square(m_clip.plane.relativeScaleError()) - tape;
            less += m_budget.scale * std::max(ends, 0.0) * (1.0 - quarter) /
                    std::max(ends + tape, 1e-12);
        }
        add("Film so that the runner is twice as large in the picture", less);
    }

    void addFaster()
    {
        add("Film at twice the frame rate",
            (m_budget.ofEvents() + m_budget.commonEvents) * (1.0 - quarter));
    }

    void addFramesBefore()
    {
        const double frame = m_clip.frameInterval.count();
        const double own = m_clip.steps.empty() ? 0.0 : ownEventVariance(m_clip, 0);
        const double lag = square(frame / 2.0) / (square(frame / 2.0) + own);
        add("Mark the frame before each contact and toe-off too", m_budget.detail.readLate * lag);
    }

    void addScaleLine()
    {
        if (m_clip.plane.scaleFrom() == ScaleFrom::Line) {
            add("Draw a scale line twice as long", m_budget.scale * (1.0 - quarter));
        } else if (m_clip.plane.scaleFrom() == ScaleFrom::Belt ||
                   m_clip.plane.scaleFrom() == ScaleFrom::LegLength) {
            const double drawn =
                square(tapeCm / usualLineCm) + square(std::sqrt(2.0) * m_cmPerPixel / usualLineCm);
            add(m_clip.plane.scaleFrom() == ScaleFrom::Belt
                    ? "Draw a scale line of two metres instead of trusting the belt's speed"
                    : "Draw a scale line of two metres instead of trusting the leg's length",
                m_budget.scale * (1.0 - drawn / square(m_clip.plane.relativeScaleError())));
        }
    }

    void addPlumbLine()
    {
        if (m_clip.conditions.scene.plumb) {
            add("Draw a plumb line twice as long", m_budget.plumb * (1.0 - quarter));
            return;
        }
        const double drawn = square(std::sqrt(2.0) / usualPlumbPx);
        add("Draw a plumb line",
            m_budget.plumb * std::max(1.0 - drawn / square(m_clip.plane.plumbError()), 0.0));
    }

    void addTape()
    {
        const auto worst = worstOf(m_budget.detail);
        const double now = m_clip.clicks.of(worst.landmark);
        if (worst.variance > 0.0 && now > tapedCm) {
            add("Put tape on the " + std::string(nameOf(worst.landmark)) + " and mark the tape",
                worst.variance * (1.0 - square(tapedCm / now)));
        }
    }

    void addBelt()
    {
        add("Time twenty rounds of the belt and type its true speed",
            m_budget.belt * (1.0 - square(timedBelt / beltError)));
    }

    void addSteps()
    {
        if (m_budget.steps > 1) {
            add("Mark twice as many steps",
                (m_budget.ofMarks() + m_budget.ofEvents() + m_budget.spread) / 2.0);
        }
    }

    const ErrorBudget& m_budget;
    const PreparedClip& m_clip;
    const Measure& m_measure;
    double m_before;
    double m_cmPerPixel;
    std::vector<Remedy> m_remedies;
};

} // namespace

double ErrorBudget::ofMarks() const
{
    return std::accumulate(detail.landmarks.begin(), detail.landmarks.end(), 0.0) +
           detail.flatFoot + detail.trunk;
}

double ErrorBudget::ofEvents() const
{
    return detail.contacts + detail.toeOffs + detail.readLate + detail.readMidway;
}

double ErrorBudget::sum() const
{
    return ofMarks() + ofEvents() + scale + plumb + belt + commonEvents + spread;
}

std::vector<Remedy> remediesFor(const ErrorBudget& budget, const PreparedClip& clip,
                                const Measure& measure)
{
    return budget.sum() > 0.0 ? Remedies(budget, clip, measure).all() : std::vector<Remedy>{};
}

} // namespace latemile
