// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/own_formula.hpp"

#include "core/measures/angles.hpp"
#include "core/measures/evidence.hpp"

#include <cmath>

namespace latemile {

namespace {

using Node = OwnFormula::Node;
using Is = OwnFormula::Node::Is;

/// A value of two or three points, in the plane.
double ofPoints(const Node& node, PlanePoint a, PlanePoint b, PlanePoint c)
{
    switch (node.is) {
    case Is::Ahead:
        return a.x - b.x;
    case Is::Above:
        return a.y - b.y;
    case Is::Distance:
        return std::hypot(b.x - a.x, b.y - a.y);
    case Is::Lean:
        return atan2Degrees(b.x - a.x, b.y - a.y);
    case Is::Hang:
        return atan2Degrees(b.x - a.x, a.y - b.y);
    case Is::Slope:
        return atan2Degrees(b.y - a.y, b.x - a.x);
    default:
        return innerAngleDegrees(a, b, c);
    }
}

/// What is made of its parts' values.
double ofParts(const Node& node, double left, double right)
{
    switch (node.is) {
    case Is::Sum:
        return left + right;
    case Is::Difference:
        // Angles are wrapped, so that 179 less -179 is -2.
        return node.kind == OwnFormula::Kind::Angle ? wrapDegrees(left - right) : left - right;
    case Is::Product:
        return left * right;
    case Is::Quotient:
        return left / right;
    default:
        return -left;
    }
}

/// `asked` gives the value of a node without parts, or of an extreme.
template <class Asked>
double evaluated(const Node& node, const Asked& asked)
{
    if (node.parts.empty() || node.is == Is::Highest || node.is == Is::Lowest) {
        return asked(node);
    }
    const double left = evaluated(node.parts.front(), asked);
    const double right = node.parts.size() > 1 ? evaluated(node.parts.back(), asked) : 0.0;
    return ofParts(node, left, right);
}

double onFrame(const Node& root, const Evidence::Figure& figure)
{
    return evaluated(root, [&](const Node& node) {
        if (node.is == Is::Number) {
            return node.number;
        }
        return ofPoints(node, figure(node.landmarks.front()), figure(node.landmarks[1]),
                        figure(node.landmarks.back()));
    });
}

double extreme(const Node& node, Evidence& step)
{
    using Phase = OwnFormula::Phase;
    const double from = node.phase == Phase::Swing ? step.toeOff() : step.contact();
    const double to = node.phase == Phase::Stance ? step.toeOff() : step.strideEnd();
    const auto value = [&node](const Evidence::Figure& figure) {
        return onFrame(node.parts.front(), figure);
    };
    const auto kind = node.is == Is::Highest ? Extreme::Highest : Extreme::Lowest;
    return step.extreme({from, to, kind, FewLandmarks(node.landmarks), value, node.sides.front()})
        .value;
}

double asked(const Node& node, Evidence& step)
{
    const auto point = [&](std::size_t i) {
        return step.at(*node.at, node.landmarks[i], node.sides[i]);
    };
    switch (node.is) {
    case Is::Number:
        return node.number;
    case Is::Leg:
        return step.legLength();
    case Is::Trunk:
        return step.trunk();
    case Is::FlatFoot:
        return step.flatFootDegrees();
    case Is::AboveGround:
        return step.heightOverGround(*node.at, node.landmarks.front());
    case Is::Highest:
    case Is::Lowest:
        return extreme(node, step);
    default:
        break;
    }
    const auto first = point(0);
    const auto second = point(1);
    return ofPoints(node, first, second, node.landmarks.size() > 2 ? point(2) : second);
}

} // namespace

double valueOf(const OwnFormula& formula, Evidence& step)
{
    return evaluated(formula.root, [&step](const Node& node) { return asked(node, step); });
}

} // namespace latemile
