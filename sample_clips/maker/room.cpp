// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/room.hpp"

#include <array>
#include <cmath>
#include <limits>

namespace latemile::maker {

namespace {
constexpr double wallBehind = 175.0; ///< cm beyond the plane of running
constexpr double wallAhead = 330.0;  ///< cm, rear view

double smoothStep(double from, double to, double x)
{
    const double u = std::clamp((x - from) / (to - from), 0.0, 1.0);
    return u * u * (3.0 - 2.0 * u);
}
} // namespace

Room::Room(const ClipRecipe& recipe)
    : m_view(recipe.camera.view), m_floor(recipe.runner.overground ? 0.0 : -20.0),
      m_pole(m_view == View::Rear ? Pole{{0.0, 0.0, 75.0}, {0.0, 180.0, 75.0}, 180.0}
                                  : Pole{{-135.0, 0.0, 0.0}, {-135.0, 180.0, 0.0}, 180.0}),
      m_relief(recipe.runner.seed)
{
    furnish(recipe);
}

void Room::furnish(const ClipRecipe& recipe)
{
    const auto pole = [this](double from, double to, double half, Kind kind) {
        m_boxes.push_back({{m_pole.bottom.x - half, from, m_pole.bottom.z - half},
                           {m_pole.bottom.x + half, to, m_pole.bottom.z + half},
                           kind});
    };
    pole(m_floor, m_pole.bottom.y, 1.2, Kind::Stand);
    pole(m_pole.bottom.y, m_pole.top.y, 1.6, Kind::Pole);
    pole(m_floor, m_floor + 2.0, 14.0, Kind::Stand);
    if (recipe.runner.overground) {
        return;
    }
    m_boxes.push_back({{-92, -6, -24}, {78, 0, 24}, Kind::Belt});
    for (const double side : {-1.0, 1.0}) {
        const double in = side < 0 ? -35.0 : 24.0;
        m_boxes.push_back({{-98, -16, in}, {80, 1.5, in + 11.0}, Kind::Frame});
        const double post = side < 0 ? -34.0 : 29.0;
        m_boxes.push_back({{96, 6, post}, {102, 112, post + 5.0}, Kind::Frame});
        m_boxes.push_back({{-94, m_floor, post}, {-84, -14, post + 5.0}, Kind::Hood});
    }
    m_boxes.push_back({{76, -20, -36}, {116, 7, 36}, Kind::Hood});
    m_boxes.push_back({{88, 104, -34}, {104, 126, 34}, Kind::Hood});
    m_boxes.push_back({{86, 107, -26}, {88, 123, 26}, Kind::Screen});
    if (recipe.picture.handrail && m_view != View::Rear) {
        const double out = m_view == View::LeftSide ? -43.0 : 40.0;
        m_before.push_back({{-62, 82, out}, {98, 86, out + 3.0}, Kind::Rail});
        m_before.push_back({{-62, -14, out}, {-58, 82, out + 3.0}, Kind::Rail});
        m_before.push_back({{18, -14, out}, {22, 82, out + 3.0}, Kind::Rail});
    }
}

std::optional<Room::Hit> Room::nearest(const std::vector<Box>& boxes, Vec3 from, Vec3 ray)
{
    std::optional<Hit> best;
    for (const auto& box : boxes) {
        const std::array<double, 3> o{from.x, from.y, from.z};
        const std::array<double, 3> d{ray.x, ray.y, ray.z};
        const std::array<double, 3> low{box.low.x, box.low.y, box.low.z};
        const std::array<double, 3> high{box.high.x, box.high.y, box.high.z};
        double enter = 0.0;
        double leave = std::numeric_limits<double>::max();
        int axis = 0;
        for (std::size_t i = 0; i < 3; ++i) {
            const double step = std::abs(d[i]) < 1e-12 ? 1e-12 : d[i];
            const double one = (low[i] - o[i]) / step;
            const double two = (high[i] - o[i]) / step;
            if (std::min(one, two) > enter) {
                enter = std::min(one, two);
                axis = static_cast<int>(i);
            }
            leave = std::min(leave, std::max(one, two));
            if (enter >= leave) {
                break;
            }
        }
        if (enter > 0.0 && enter < leave && (!best || enter < best->far)) {
            best = Hit{enter, from + ray * enter, axis, box.kind};
        }
    }
    return best;
}

Colour Room::colourOf(const Hit& hit) const
{
    const Vec3 p = hit.place;
    const double light = (hit.axis == 1   ? 1.12
                          : hit.axis == 0 ? 0.82
                                          : 1.0) *
                         (1.0 + 0.04 * m_relief.rough(0.3 * (p.x + p.z), 0.3 * p.y));
    switch (hit.kind) {
    case Kind::Belt:
        return Colour{60, 60, 62} * light;
    case Kind::Frame:
        return Colour{176, 172, 168} * light;
    case Kind::Hood:
        return Colour{72, 66, 62} * light;
    case Kind::Screen:
        return Colour{120, 92, 40} * light;
    case Kind::Stand:
        return Colour{70, 70, 74} * light;
    case Kind::Rail:
        return Colour{96, 92, 90} * light;
    case Kind::Pole: {
        const bool dark = static_cast<int>(std::floor(p.y / 10.0)) % 2 == 0;
        return (dark ? Colour{48, 40, 36} : Colour{70, 130, 240}) * light;
    }
    }
    return {};
}

Colour Room::wallAt(double across, double height) const
{
    const double h = height - m_floor;
    Colour colour = h < 78.0 ? Colour{146, 128, 96} : Colour{206, 210, 212};
    colour =
        blend(colour, Colour{226, 228, 230}, smoothStep(76, 77, h) * (1 - smoothStep(81, 82, h)));
    colour = blend(Colour{70, 66, 64}, colour, smoothStep(9.5, 10.2, h));
    // A window with four panes, and wall bars of wood on the other side.
    const double wx = std::abs(across - 70.0);
    const double wy = std::abs(h - 165.0);
    if (wx < 52.0 && wy < 42.0) {
        const bool frame = wx > 47.0 || wy > 37.0 || wx < 1.8 || wy < 1.8;
        const double hill = 160.0 + 9.0 * m_relief.at(across * 0.04, 3.3);
        const Colour sky = blend(Colour{246, 238, 226}, Colour{240, 214, 184}, (h - 120.0) / 90.0);
        const Colour green =
            Colour{92, 142, 104} * (1 + 0.2 * m_relief.rough(across * 0.2, h * 0.2));
        colour = frame ? Colour{236, 240, 242} : h < hill ? green : sky;
    }
    const double bx = std::abs(across + 118.0);
    if (bx < 46.0 && h > 14.0 && h < 226.0) {
        const double rung = std::fmod(h, 16.0);
        if (bx > 42.0 || (rung < 3.6 && bx < 42.0)) {
            const double round = bx > 42.0 ? 1.0 : 1.1 - 0.10 * std::abs(rung - 1.8);
            colour =
                Colour{96, 150, 196} * round * (1 + 0.08 * m_relief.rough(across * 0.05, h * 0.9));
        }
    }
    return colour *
           (1.0 + 0.035 * m_relief.rough(across * 0.12, h * 0.12) +
            0.02 * m_relief.at(across * 1.3, h * 1.3)) *
           (0.88 + 0.0006 * h);
}

Colour Room::floorAt(double x, double z) const
{
    const double speck = m_relief.at(x * 0.9, z * 0.9);
    const Colour base = blend(Colour{112, 104, 100}, Colour{150, 140, 132},
                              speck > 0.62 ? 0.8 : 0.12 * (1 + speck));
    const double under =
        smoothStep(0, 34, std::abs(z) - 30.0) + smoothStep(0, 30, std::abs(x) - 100.0);
    return base * (m_floor < 0 ? 0.62 + 0.38 * std::min(under, 1.0) : 1.0) *
           (1.0 + 0.05 * m_relief.rough(x * 0.05, z * 0.05));
}

Room::Sight Room::look(Vec3 from, Vec3 ray) const
{
    if (const auto hit = nearest(m_boxes, from, ray)) {
        const bool belt = hit->kind == Kind::Belt && hit->axis == 1;
        return {colourOf(*hit), belt ? std::optional(hit->place) : std::nullopt};
    }
    const double down = ray.y < 0 ? (m_floor - from.y) / ray.y : std::numeric_limits<double>::max();
    const bool rear = m_view == View::Rear;
    const double side = m_view == View::LeftSide ? 1.0 : -1.0;
    const double wall = rear ? (wallAhead - from.x) / ray.x : (side * wallBehind - from.z) / ray.z;
    if (down < wall) {
        const Vec3 p = from + ray * down;
        return {floorAt(p.x, p.z), std::nullopt};
    }
    const Vec3 p = from + ray * wall;
    // Seen from behind, the window would stand behind the runner's head: it moves aside.
    return {wallAt(rear ? p.z - 60.0 : -p.x, p.y), std::nullopt};
}

std::optional<Colour> Room::lookBefore(Vec3 from, Vec3 ray) const
{
    const auto hit = nearest(m_before, from, ray);
    return hit ? std::optional(colourOf(*hit)) : std::nullopt;
}

} // namespace latemile::maker
