// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/cell_plan.hpp"

#include "ui/document/clip_document.hpp"

#include <algorithm>

namespace latemile::ui {
namespace {

bool isReadAt(const Measure& measure, Instant instant)
{
    return measure.instant == instant ||
           measure.instantWords.find(nameOf(instant)) != std::string_view::npos;
}

} // namespace

const std::vector<std::string>& defaultMeasures()
{
    static const std::vector<std::string> six{"head_forward",      "trunk_lean",   "foot_ahead",
                                              "knee_flex_contact", "contact_time", "step_rate"};
    return six;
}

CellPlan::CellPlan(const std::vector<std::string>& measures, const OwnMeasures& own)
{
    for (const std::string& id : measures.empty() ? defaultMeasures() : measures) {
        const Measure* measure = own.find(id);
        if (measure == nullptr) {
            continue;
        }
        for (const Instant instant : instantsInOrder) {
            if (isReadAt(*measure, instant)) {
                want(instant, true, measure->landmarks);
                if (measure->feet == Feet::Together) {
                    want(instant, false, measure->landmarks);
                }
            }
        }
    }
}

CellPlan CellPlan::everything()
{
    CellPlan plan{defaultMeasures()};
    const std::vector<Landmark> all(sideViewLandmarks.begin(), sideViewLandmarks.end());
    for (const Instant instant : {Instant::Contact, Instant::MidStance, Instant::ToeOff}) {
        plan.want(instant, true, all);
    }
    return plan;
}

void CellPlan::want(Instant instant, bool nearFoot, const std::vector<Landmark>& landmarks)
{
    auto& cell = (nearFoot ? m_near : m_far)[static_cast<std::size_t>(instant)];
    cell.insert(cell.end(), landmarks.begin(), landmarks.end());
    std::ranges::sort(cell);
    cell.erase(std::ranges::unique(cell).begin(), cell.end());
}

const std::vector<Landmark>& CellPlan::landmarks(Instant instant, bool nearFoot) const
{
    return (nearFoot ? m_near : m_far)[static_cast<std::size_t>(instant)];
}

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
