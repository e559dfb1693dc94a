// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/whole_steps.hpp"

#include "ui/document/clip_document.hpp"
#include "ui/marks/marking_flow.hpp"

#include <algorithm>

namespace latemile::ui {

bool isConfirmedWhole(const MarkingFlow& flow, const Step& step)
{
    if (!flow.clip()->isNear(step.foot)) {
        return false;
    }
    bool isAsked = false;
    for (const Instant instant : instantsInOrder) {
        const StepInstant place{step.number, instant};
        if (!flow.asked(place).empty()) {
            isAsked = true;
            if (flow.work(place).state != CellState::Confirmed) {
                return false;
            }
        }
    }
    return isAsked;
}

bool isAnyConfirmedWhole(const MarkingFlow& flow)
{
    return std::ranges::any_of(flow.clip()->steps(),
                               [&flow](const Step& step) { return isConfirmedWhole(flow, step); });
}

} // namespace latemile::ui
