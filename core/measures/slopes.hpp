// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/evidence.hpp"
#include "core/measures/formulas.hpp"
#include "core/measures/propagation.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace latemile {

/// How one value answers when what it was read from is disturbed a little.
class Slopes {
public:
    /// `plain` has answered the formula with `value`.
    Slopes(const PreparedClip& clip, const Measure& measure, const Formula& formula,
           const Evidence& plain, double value)
        : m_clip(clip), m_measure(measure), m_formula(formula), m_plain(plain), m_value(value)
    {
    }

    /// Change of the value a unit of the disturbance; `set` puts an amount into a Disturbance.
    /// Amounts are small enough for one side to do: what bends within them is far below any error.
    template <class Set>
    [[nodiscard]] double by(double amount, Set set) const
    {
        const auto shifted = valueAt(amount, set);
        return shifted ? difference(*shifted, m_value) / amount : 0.0;
    }

    /// Units a second around mid-stance, from the frames farthest before and after that are marked.
    [[nodiscard]] std::optional<double> measuredRate() const
    {
        const auto set = [](Disturbance& d, double frames) {
            d.framesLater = static_cast<int>(frames);
        };
        const double frame = m_clip.frameInterval.count();
        for (int apart = std::max(static_cast<int>(velocityHalfWidth / frame), 1); apart > 0;
             --apart) {
            const auto later = valueAt(apart, set);
            const auto sooner = later ? valueAt(-apart, set) : std::nullopt;
            if (later && sooner) {
                return difference(*later, *sooner) / (2.0 * apart * frame);
            }
        }
        return std::nullopt;
    }

private:
    template <class Set>
    [[nodiscard]] std::optional<double> valueAt(double amount, Set set) const
    {
        Disturbance disturbance;
        set(disturbance, amount);
        auto evidence = m_plain.shifted(disturbance);
        const double value = m_formula(evidence);
        return evidence.missing() ? std::nullopt : std::optional(value);
    }

    /// Angles near +-180 degrees do not jump.
    [[nodiscard]] double difference(double high, double low) const
    {
        return m_measure.unit == Unit::Degree ? std::remainder(high - low, 360.0) : high - low;
    }

    const PreparedClip& m_clip;
    const Measure& m_measure;
    const Formula& m_formula;
    const Evidence& m_plain;
    double m_value;
};

} // namespace latemile
