// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/steps.hpp"
#include "core/measures/own_measures.hpp"

#include <array>
#include <string>
#include <vector>

namespace latemile::ui {

class ClipDocument;

/// The columns of the step table.
inline constexpr std::array instantsInOrder{Instant::Contact, Instant::MidStance, Instant::ToeOff,
                                            Instant::MidSwing};

enum class CellState { Empty, Begun, Proposed, Confirmed };

/// Which landmarks the coach is asked for in each cell of the step table: those the chosen measures
/// are read from, in body order, and no more.
class CellPlan {
public:
    CellPlan() = default;
    /// `measures` by id, of the table or of the coach's own; unknown ones are passed over. Empty:
    /// the default six.
    explicit CellPlan(const std::vector<std::string>& measures, const OwnMeasures& own = {});
    /// All nine points at every instant of every near step.
    [[nodiscard]] static CellPlan everything();

    /// Empty where the cell asks for nothing.
    [[nodiscard]] const std::vector<Landmark>& landmarks(Instant instant, bool nearFoot) const;
    [[nodiscard]] bool operator==(const CellPlan&) const = default;

private:
    void want(Instant instant, bool nearFoot, const std::vector<Landmark>& landmarks);
    std::vector<Landmark> m_near[4];
    std::vector<Landmark> m_far[4];
};

/// How far a cell is: Begun has some of its landmarks placed, Proposed has all but not all placed
/// by the coach. A landmark that is not visible counts as done.
struct CellWork {
    CellState state{};
    int done{};
    int asked{};
};
[[nodiscard]] CellWork workOf(const ClipDocument& document, FrameNumber frame,
                              const std::vector<Landmark>& asked);

/// The measures a session starts with: two of the upper body, two of the landing, two of time.
[[nodiscard]] const std::vector<std::string>& defaultMeasures();

} // namespace latemile::ui
