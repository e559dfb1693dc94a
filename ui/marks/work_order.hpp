// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/place_name.hpp"

#include <functional>
#include <map>
#include <optional>
#include <utility>
#include <vector>

namespace latemile::ui {

/// In which order cells are worked on: as they come in the clip, or, once their urgency is noted,
/// the most urgent first. A cell that is done keeps its place, so that going on from it does not
/// lead back to what was passed over.
class WorkOrder {
public:
    void note(const StepInstant& place, double urgency);
    void forget() { m_urgency.clear(); }
    [[nodiscard]] bool isByUrgency() const { return !m_urgency.empty(); }
    /// `cells` as they come in the clip.
    void sort(std::vector<StepInstant>& cells) const;

    /// The next (or previous, way -1) of `sorted` after `here` that is open, round the list.
    [[nodiscard]] std::optional<StepInstant>
    next(const std::vector<StepInstant>& sorted, const std::optional<StepInstant>& here, int way,
         const std::function<bool(const StepInstant&)>& isOpen) const;

private:
    using Key = std::pair<StepNumber, Instant>;
    [[nodiscard]] double urgencyOf(const StepInstant& place) const;
    std::map<Key, double> m_urgency;
};

} // namespace latemile::ui
