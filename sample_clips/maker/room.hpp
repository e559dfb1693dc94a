// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "sample_clips/maker/camera.hpp"
#include "sample_clips/maker/colour.hpp"
#include "sample_clips/maker/noise.hpp"

#include <optional>
#include <vector>

namespace latemile::maker {

/// The pole with 10 cm bands that stands in the plane of running: where its lowest band begins and
/// its highest ends.
struct Pole {
    Vec3 bottom;
    Vec3 top;
    double lengthCm{};
};

/// What stands still around the runner: wall, floor, pole and treadmill. Answers what a ray meets.
class Room {
public:
    Room(const ClipRecipe& recipe);

    struct Sight {
        Colour colour;
        std::optional<Vec3> belt; ///< the place on the belt, when that is what is seen
    };
    /// What one ray from the camera meets; the belt's own colour is left to who moves it.
    [[nodiscard]] Sight look(Vec3 from, Vec3 ray) const;
    /// The colour of what stands before the runner (the near handrail), if the ray meets it.
    [[nodiscard]] std::optional<Colour> lookBefore(Vec3 from, Vec3 ray) const;
    [[nodiscard]] const Pole& pole() const { return m_pole; }
    [[nodiscard]] double floorHeight() const { return m_floor; }

private:
    enum class Kind { Belt, Frame, Hood, Screen, Pole, Stand, Rail };
    struct Box {
        Vec3 low;
        Vec3 high;
        Kind kind;
    };
    struct Hit {
        double far;
        Vec3 place;
        int axis; ///< 0 x, 1 y, 2 z: which way the face looks
        Kind kind;
    };
    void furnish(const ClipRecipe& recipe);
    [[nodiscard]] static std::optional<Hit> nearest(const std::vector<Box>& boxes, Vec3 from,
                                                    Vec3 ray);
    [[nodiscard]] Colour colourOf(const Hit& hit) const;
    [[nodiscard]] Colour wallAt(double across, double height) const;
    [[nodiscard]] Colour floorAt(double x, double z) const;

    View m_view;
    double m_floor{};
    Pole m_pole;
    Relief m_relief;
    std::vector<Box> m_boxes;
    std::vector<Box> m_before;
};

} // namespace latemile::maker
