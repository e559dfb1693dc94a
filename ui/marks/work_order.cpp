// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/work_order.hpp"

#include <algorithm>
#include <iterator>

namespace latemile::ui {

void WorkOrder::note(const StepInstant& place, double urgency)
{
    m_urgency[{place.step, place.instant}] = urgency;
}

double WorkOrder::urgencyOf(const StepInstant& place) const
{
    const auto found = m_urgency.find({place.step, place.instant});
    return found == m_urgency.end() ? -1.0 : found->second;
}

void WorkOrder::sort(std::vector<StepInstant>& cells) const
{
    if (isByUrgency()) {
        std::ranges::stable_sort(cells, std::greater{},
                                 [this](const StepInstant& place) { return urgencyOf(place); });
    }
}

std::optional<StepInstant>
WorkOrder::next(const std::vector<StepInstant>& sorted, const std::optional<StepInstant>& here,
                int way, const std::function<bool(const StepInstant&)>& isOpen) const
{
    const auto count = std::ssize(sorted);
    const auto found = here ? std::ranges::find(sorted, *here) : sorted.end();
    auto at = found - sorted.begin();
    if (found == sorted.end()) {
        // Between two cells: those before the place at hand lie behind it.
        const auto isBefore = [&](const StepInstant& cell) {
            return here && !isByUrgency() &&
                   std::pair(cell.step, cell.instant) < std::pair(here->step, here->instant);
        };
        at = std::ranges::count_if(sorted, isBefore) - (way > 0 ? 1 : 0);
    }
    for (std::ptrdiff_t tried = 0; tried < count; ++tried) {
        at = (at + way + count) % count;
        if (isOpen(sorted[static_cast<std::size_t>(at)])) {
            return sorted[static_cast<std::size_t>(at)];
        }
    }
    return std::nullopt;
}

} // namespace latemile::ui
