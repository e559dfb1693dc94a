// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/compare/step_phase.hpp"

namespace latemile::ui {

std::optional<FrameNumber> frameAtPhase(const Step& step, double phase, const FrameIndex& index)
{
    if (!step.nextContact || index.size() == 0) {
        return std::nullopt;
    }
    return index.nearest(step.contact + (*step.nextContact - step.contact) * phase);
}

} // namespace latemile::ui
