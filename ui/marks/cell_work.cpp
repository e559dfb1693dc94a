// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/cell_work.hpp"

#include "ui/document/clip_document.hpp"

namespace latemile::ui {

CellWork workOf(const ClipDocument& document, FrameNumber frame, const std::vector<Landmark>& asked)
{
    int placed = 0;
    int there = 0;
    for (const Landmark landmark : asked) {
        const MarkKey key{frame, BodySide::Near, landmark};
        const Mark* mark = document.marking().find(key);
        const bool unseen = document.marking().unseen.contains(key);
        there += mark != nullptr || unseen ? 1 : 0;
        placed += unseen || (mark != nullptr && mark->origin == Origin::Placed) ? 1 : 0;
    }
    const int total = static_cast<int>(asked.size());
    CellWork work{.state = CellState::Begun, .done = placed, .asked = total};
    if (placed == total) {
        work.state = CellState::Confirmed;
    } else if (there == total || (there > placed && placed == 0)) {
        work.state = CellState::Proposed;
    } else if (there == 0) {
        work.state = CellState::Empty;
    }
    return work;
}

} // namespace latemile::ui
