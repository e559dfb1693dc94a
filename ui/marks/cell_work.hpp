// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/asked_landmarks.hpp"

#include <vector>

namespace latemile::ui {

class ClipDocument;

enum class CellState { Empty, Begun, Proposed, Confirmed };

/// How far a cell of the step table is: Begun has some of its landmarks placed, Proposed has all
/// but not all placed by the coach. A landmark that is not visible counts as done.
struct CellWork {
    CellState state{};
    int done{};
    int asked{};
};
[[nodiscard]] CellWork workOf(const ClipDocument& document, FrameNumber frame,
                              const std::vector<Landmark>& asked);

} // namespace latemile::ui
