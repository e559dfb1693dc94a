// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/own_formula_tree.hpp"

#include "core/measures/formula_words.hpp"

#include <algorithm>

namespace latemile {

using Node = OwnFormula::Node;
using Is = OwnFormula::Node::Is;
using Phase = OwnFormula::Phase;

bool isMeasured(const Node& node)
{
    return !node.landmarks.empty();
}

Outcome<void> spread(Node& node, Instant at, std::size_t column)
{
    if (node.at || node.is == Is::Highest || node.is == Is::Lowest) {
        return formulaFault(column, "what stands before this 'at' has its own instant or phase "
                                    "already; leave one out");
    }
    if (isMeasured(node)) {
        node.at = at;
    }
    for (auto& part : node.parts) {
        RETURN_IF_ERROR(spread(part, at, column));
    }
    return {};
}

const Node* notOnEveryFrame(const Node& node)
{
    switch (node.is) {
    case Is::Highest:
    case Is::Lowest:
    case Is::Leg:
    case Is::Trunk:
    case Is::FlatFoot:
    case Is::AboveGround:
        return &node;
    default:
        break;
    }
    if (node.at) {
        return &node;
    }
    for (const auto& part : node.parts) {
        if (const auto* found = notOnEveryFrame(part)) {
            return found;
        }
    }
    return nullptr;
}

void collect(const Node& node, Node& into)
{
    for (std::size_t i = 0; i < node.landmarks.size(); ++i) {
        if (std::ranges::find(into.landmarks, node.landmarks[i]) == into.landmarks.end()) {
            into.landmarks.push_back(node.landmarks[i]);
        }
        into.sides.push_back(node.sides[i]);
    }
    for (const auto& part : node.parts) {
        collect(part, into);
    }
}

Outcome<void> gather(const Node& node, OwnFormula& formula)
{
    const bool searched = node.is == Is::Highest || node.is == Is::Lowest;
    if (isMeasured(node) && !searched && !node.at) {
        return formulaFault(node.column,
                            "this value needs an instant: write 'at contact', 'at mid-stance', 'at "
                            "toe-off' or 'at mid-swing' behind it, or behind the bracket it is in");
    }
    for (const auto landmark : node.landmarks) {
        if (std::ranges::find(formula.landmarks, landmark) == formula.landmarks.end()) {
            formula.landmarks.push_back(landmark);
        }
    }
    for (const auto side : node.sides) {
        formula.bySides = formula.bySides || side != BodySide::Near;
    }
    if (node.at && std::ranges::find(formula.instants, *node.at) == formula.instants.end()) {
        formula.instants.push_back(*node.at);
    }
    formula.wholeStride = formula.wholeStride || (searched && node.phase != Phase::Stance) ||
                          node.at == Instant::MidSwing;
    if (searched) {
        return {};
    }
    for (const auto& part : node.parts) {
        RETURN_IF_ERROR(gather(part, formula));
    }
    return {};
}

bool mixesSides(const Node& node, bool bySides)
{
    const auto mixed = [bySides](BodySide side) { return (side != BodySide::Near) != bySides; };
    return std::ranges::any_of(node.sides, mixed) ||
           std::ranges::any_of(node.parts,
                               [&](const Node& part) { return mixesSides(part, bySides); });
}

} // namespace latemile
