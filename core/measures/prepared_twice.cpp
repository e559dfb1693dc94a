// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/prepared_twice.hpp"

#include <algorithm>

namespace latemile {

std::optional<std::size_t> PreparedTwice::confirmedStep(std::size_t step) const
{
    const auto place = std::ranges::find(places, step);
    return place == places.end() ? std::nullopt
                                 : std::optional(static_cast<std::size_t>(place - places.begin()));
}

Marking confirmedPart(const Marking& marking)
{
    auto part = marking;
    std::erase_if(part.marks,
                  [](const auto& entry) { return entry.second.origin != Origin::Placed; });
    std::erase_if(part.stances,
                  [](const Stance& stance) { return stance.origin != Origin::Placed; });
    return part;
}

Outcome<PreparedTwice> prepareTwice(const MarkedClip& clip)
{
    ASSIGN_OR_RETURN(auto all, prepare(clip));
    PreparedTwice twice{std::move(all), std::nullopt, {}};
    auto part = clip;
    part.marking = confirmedPart(clip.marking);
    if (part.marking.marks.size() == clip.marking.marks.size() &&
        part.marking.stances.size() == clip.marking.stances.size()) {
        return twice;
    }
    ASSIGN_OR_RETURN(twice.confirmed, prepare(part));
    for (std::size_t i = 0; i < twice.all.steps.size(); ++i) {
        if (twice.all.steps[i].origin == Origin::Placed) {
            twice.places.push_back(i);
        }
    }
    return twice;
}

} // namespace latemile
