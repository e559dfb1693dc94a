// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/placed_figures.hpp"

#include <algorithm>

namespace latemile {

namespace {

/// Of a far side all but the foot is covered half of the time by what is nearer, and no measure
/// reads it.
bool isFollowed(const MarkKey& key)
{
    const bool isOfFoot = key.landmark == Landmark::Ankle || key.landmark == Landmark::Heel ||
                          key.landmark == Landmark::Toe;
    return key.side != BodySide::Far || isOfFoot;
}

struct Box {
    double left{1e9}, top{1e9}, right{-1e9}, bottom{-1e9};
    void add(PixelPoint point)
    {
        left = std::min(left, point.u);
        right = std::max(right, point.u);
        top = std::min(top, point.v);
        bottom = std::max(bottom, point.v);
    }
    [[nodiscard]] bool isEmpty() const { return right < left; }
};

Box boxOf(const std::vector<PlacedSide>& sides)
{
    Box box;
    for (const auto& side : sides) {
        for (const auto& [frame, figure] : side.placed) {
            for (const auto& point : figure) {
                if (point) {
                    box.add(*point);
                }
            }
        }
    }
    return box;
}

} // namespace

std::vector<PlacedSide> placedSides(const Marking& marking, FrameNumber first, FrameNumber last)
{
    std::map<BodySide, PlacedSide> sides;
    for (const auto& [key, mark] : marking.marks) {
        if (mark.origin == Origin::Placed && isFollowed(key) && key.frame >= first &&
            key.frame <= last) {
            auto& side = sides[key.side];
            side.side = key.side;
            side.placed[key.frame.value][placeOf(key.landmark)] = mark.at;
        }
    }
    std::vector<PlacedSide> list;
    for (auto& [name, side] : sides) {
        list.push_back(std::move(side));
    }
    return list;
}

FollowedStretch stretchFor(const std::vector<PlacedSide>& sides, FrameNumber first,
                           FrameNumber last, const ClipFacts& facts)
{
    std::vector<Figure> figures;
    for (const auto& side : sides) {
        for (const auto& [frame, figure] : side.placed) {
            figures.push_back(figure);
        }
    }
    const double pixelsPerCm = roughPixelsPerCm(figures).value_or(facts.height / 225.0);
    const auto box = boxOf(sides);
    const double up = 30.0 * pixelsPerCm;
    return {first,
            last,
            {0.0, box.top - up},
            {static_cast<double>(facts.width), box.bottom + up},
            pixelsPerCm};
}

} // namespace latemile
