// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/picture/figure_painter.hpp"

#include <QPainter>

#include <array>
#include <utility>

namespace latemile::ui {
namespace {

constexpr std::array segments{
    std::pair{Landmark::Ear, Landmark::Shoulder},   std::pair{Landmark::Shoulder, Landmark::Hip},
    std::pair{Landmark::Shoulder, Landmark::Elbow}, std::pair{Landmark::Elbow, Landmark::Wrist},
    std::pair{Landmark::Hip, Landmark::Knee},       std::pair{Landmark::Knee, Landmark::Ankle},
    std::pair{Landmark::Ankle, Landmark::Heel},     std::pair{Landmark::Heel, Landmark::Toe},
    std::pair{Landmark::Heel, Landmark::HeelTop}};

FigureInk inkFor(const Mark& mark, const FigureInk& ink)
{
    return mark.origin == Origin::Placed ? ink : unconfirmedInk(mark.origin);
}

} // namespace

std::vector<Landmark> neighboursOf(Landmark landmark)
{
    std::vector<Landmark> neighbours;
    for (const auto& [first, second] : segments) {
        if (first == landmark || second == landmark) {
            neighbours.push_back(first == landmark ? second : first);
        }
    }
    return neighbours;
}

void paintFigure(QPainter& painter, const PictureMap& map, const Marking& marking,
                 FrameNumber frame, const FigureInk& ink)
{
    paintFigure(painter, map, marking, frame, ink, [](PixelPoint point) { return point; });
}

void paintFigure(QPainter& painter, const PictureMap& map, const Marking& marking,
                 FrameNumber frame, const FigureInk& ink,
                 const std::function<PixelPoint(PixelPoint)>& moved)
{
    for (const auto side : {BodySide::Far, BodySide::Near, BodySide::Left, BodySide::Right}) {
        for (const auto& [first, second] : segments) {
            const Mark* a = marking.find({frame, side, first});
            const Mark* b = marking.find({frame, side, second});
            if (a != nullptr && b != nullptr) {
                const FigureInk line = inkFor(a->origin == Origin::Placed ? *b : *a, ink);
                drawInkLine(painter, line, map.toDevice(moved(a->at)), map.toDevice(moved(b->at)),
                            map.devicePixels);
            }
        }
    }
    const auto from = marking.marks.lower_bound({frame, BodySide{}, Landmark{}});
    for (auto it = from; it != marking.marks.end() && it->first.frame == frame; ++it) {
        drawInkDot(painter, inkFor(it->second, ink), map.toDevice(moved(it->second.at)),
                   map.devicePixels);
    }
}

} // namespace latemile::ui
