// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/filming/model_figure.hpp"

#include <array>

namespace latemile {

namespace {

/// From the example's pixels: hip at u = 960, ground at v = 1000.
constexpr PlanePoint from(double u, double v)
{
    return {0.4 * (u - 960.0), 0.4 * (1000.0 - v)};
}

constexpr std::array figure{
    FigurePoint{Landmark::Ear, from(990, 610), from(993, 620), from(994, 609)},
    FigurePoint{Landmark::Shoulder, from(975, 655), from(977, 664), from(979, 654)},
    FigurePoint{Landmark::Elbow, from(930, 710), from(955, 725), from(975, 715)},
    FigurePoint{Landmark::Wrist, from(980, 740), from(1015, 720), from(1035, 690)},
    FigurePoint{Landmark::Hip, from(960, 780), from(960, 788), from(960, 778)},
    FigurePoint{Landmark::Knee, from(1008, 875), from(988, 890), from(919, 876)},
    FigurePoint{Landmark::Ankle, from(1025, 975), from(932, 975), from(845, 945)},
    FigurePoint{Landmark::Heel, from(1012, 989), from(920, 990), from(830, 952)},
    FigurePoint{Landmark::Toe, from(1068, 975), from(977, 990), from(868, 994)},
};

} // namespace

PlanePoint FigurePoint::at(Instant instant) const
{
    switch (instant) {
    case Instant::Contact:
        return contact;
    case Instant::ToeOff:
        return toeOff;
    case Instant::MidStance:
    case Instant::MidSwing:
        break;
    }
    return midStance;
}

std::span<const FigurePoint> modelFigure()
{
    return figure;
}

} // namespace latemile
