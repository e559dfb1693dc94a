// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/prepared_twice.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

namespace latemile {

std::optional<std::size_t> PreparedTwice::confirmedStep(std::size_t step) const
{
    const auto place = std::ranges::find(places, step);
    return place == places.end() ? std::nullopt
                                 : std::optional(static_cast<std::size_t>(place - places.begin()));
}

namespace {

bool isPlaced(const std::pair<const MarkKey, Mark>& entry)
{
    return entry.second.origin == Origin::Placed;
}

bool isTheCoachs(const Stance& stance)
{
    return stance.origin == Origin::Placed;
}

/// Copying tens of thousands of marks takes longer than reading from them.
bool isAllConfirmed(const Marking& marking)
{
    return std::ranges::all_of(marking.marks, isPlaced) &&
           std::ranges::all_of(marking.stances, isTheCoachs);
}

/// Contacts with a found one between them follow on each other only once that is confirmed.
void partNeighbours(PreparedClip& clip, const std::vector<std::size_t>& places)
{
    const auto follows = [&places](std::size_t k, std::size_t by) {
        return k + by < places.size() && places[k + by] == places[k] + by;
    };
    for (std::size_t k = 0; k < clip.steps.size(); ++k) {
        auto& step = clip.steps[k];
        if (!follows(k, 1)) {
            step.nextContact.reset();
        }
        if (!follows(k, 2)) {
            step.strideEnd.reset();
        }
        clip.instantFrames[k][static_cast<std::size_t>(Instant::MidSwing)] =
            frameOf(step, Instant::MidSwing, clip.index);
    }
}

} // namespace

Marking confirmedPart(const Marking& marking)
{
    Marking part;
    for (const auto& entry : marking.marks) {
        if (isPlaced(entry)) {
            part.marks.insert(part.marks.end(), entry);
        }
    }
    std::ranges::copy_if(marking.stances, std::back_inserter(part.stances), isTheCoachs);
    part.unseen = marking.unseen;
    return part;
}

Outcome<PreparedTwice> prepareTwice(const MarkedClip& clip)
{
    ASSIGN_OR_RETURN(auto all, prepare(clip));
    PreparedTwice twice{std::move(all), std::nullopt, {}};
    if (isAllConfirmed(clip.marking)) {
        return twice;
    }
    const MarkedClip part{clip.conditions, clip.index, confirmedPart(clip.marking), clip.athlete,
                          clip.clicks};
    ASSIGN_OR_RETURN(twice.confirmed, prepare(part));
    for (std::size_t i = 0; i < twice.all.steps.size(); ++i) {
        if (twice.all.steps[i].origin == Origin::Placed) {
            twice.places.push_back(i);
        }
    }
    partNeighbours(*twice.confirmed, twice.places);
    return twice;
}

} // namespace latemile
