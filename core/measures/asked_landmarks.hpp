// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/steps.hpp"
#include "core/measures/own_measures.hpp"

#include <array>
#include <string>
#include <vector>

namespace latemile {

/// The measures a session starts with: two of the upper body, two of the landing, two of time.
[[nodiscard]] const std::vector<std::string>& defaultMeasures();

/// Which near landmarks are asked for at each instant of a step: those the chosen measures are read
/// from, in body order, and no more.
class AskedLandmarks {
public:
    AskedLandmarks() = default;
    /// `measures` by id, of the table or of the coach's own; unknown ones are passed over. Empty:
    /// the default six.
    explicit AskedLandmarks(const std::vector<std::string>& measures, const OwnMeasures& own = {});
    /// All nine points at contact, mid-stance and toe-off of every near step.
    [[nodiscard]] static AskedLandmarks everything();

    /// Empty where nothing is asked for there.
    [[nodiscard]] const std::vector<Landmark>& at(Instant instant, bool nearFoot) const;
    [[nodiscard]] bool operator==(const AskedLandmarks&) const = default;

private:
    void want(Instant instant, bool nearFoot, const std::vector<Landmark>& landmarks);
    std::array<std::vector<Landmark>, instantCount> m_near;
    std::array<std::vector<Landmark>, instantCount> m_far;
};

} // namespace latemile
