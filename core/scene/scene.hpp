// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"
#include "core/quantities.hpp"

#include <nlohmann/json_fwd.hpp>

#include <array>
#include <filesystem>
#include <optional>
#include <string_view>
#include <vector>

namespace latemile {

/// From where the camera looks at the athlete.
enum class View { LeftSide, RightSide, Rear, Front };
/// Which way the athlete runs in the upright picture.
enum class Travel { Left, Right };
[[nodiscard]] std::string_view nameOf(View view); ///< "left-side", "right-side", "rear", "front"
[[nodiscard]] std::string_view nameOf(Travel travel); ///< "left", "right"
[[nodiscard]] constexpr bool isSideView(View view)
{
    return view == View::LeftSide || view == View::RightSide;
}

/// A line of known length drawn on the picture.
struct ScaleLine {
    PixelPoint a;
    PixelPoint b;
    double lengthCm{};
    bool operator==(const ScaleLine&) const = default;
};

/// A line that hangs straight down in the world.
struct PlumbLine {
    PixelPoint top;
    PixelPoint bottom;
    bool operator==(const PlumbLine&) const = default;
};

/// Brown-Conrady lens as OpenCV's calib3d documents it, in pixels of the upright picture with
/// centres at integer + 0.5.
struct Lens {
    double fx{}, fy{}, cx{}, cy{};
    double k1{}, k2{}, p1{}, p2{}, k3{};
    bool operator==(const Lens&) const = default;
};

/// Four corners of a rectangle in the runner's plane: where they are in the picture and in
/// centimetres (x to the picture's right, y up).
struct PlaneCorners {
    std::array<PixelPoint, 4> image;
    std::array<std::array<double, 2>, 4> cm;
    bool operator==(const PlaneCorners&) const = default;
};

/// What turns pixels into centimetres, as the coach stated it (SCENE.json).
struct Scene {
    View view{View::LeftSide};
    Travel travel{Travel::Left};
    std::optional<ScaleLine> scale;      ///< none: angles only, or a scale from belt or leg length
    std::vector<ScaleLine> moreScales{}; ///< further lines, averaged with `scale` by their errors
    std::optional<PlumbLine> plumb;      ///< none: the picture's own vertical
    std::optional<double> groundV;       ///< pixel row of the ground under the runner
    std::optional<double> captureRate;   ///< frames per real second stated for the clip
    std::optional<double> beltSpeed;     ///< m/s; none: over ground
    bool scaleByBelt{}; ///< without line and corners: the belt under the standing foot is the ruler
    std::optional<Lens> lens;
    std::optional<PlaneCorners> plane;
    bool operator==(const Scene&) const = default;
};

/// Faults name file and field; unknown fields are ignored, a "version" other than 1 is refused.
Outcome<Scene> readScene(const std::filesystem::path& file);
/// `where` goes before the field in a fault: "SCENE.json" or "session.json, clip 2".
Outcome<Scene> sceneFrom(const nlohmann::json& document, std::string_view where);
[[nodiscard]] nlohmann::json toJson(const Scene& scene);

} // namespace latemile
