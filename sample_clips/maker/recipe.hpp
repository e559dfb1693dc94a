// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>

namespace latemile::maker {

enum class Foot { Left, Right };
enum class Landing { Rearfoot, Midfoot, Forefoot };
/// Which way the camera looks at the runner. From the left side the runner faces left in the
/// picture, from the right side right.
enum class View { LeftSide, RightSide, Rear };
enum class Codec { H264, Hevc, Mpeg4, Mjpeg, Vp9, Av1 };

[[nodiscard]] constexpr Foot other(Foot foot)
{
    return foot == Foot::Left ? Foot::Right : Foot::Left;
}

/// Who runs, and how.
struct RunnerRecipe {
    std::uint64_t seed = 1;  ///< everything random of a clip hangs on it
    double speed = 2.7;      ///< m/s, of the belt or over the ground; 1.5 to 4.5
    double stepRate = 168.0; ///< steps a minute when fresh; 140 to 210
    double stature = 167.0;  ///< cm
    Landing landing = Landing::Rearfoot;
    double fatigue = 0.0;     ///< 0 fresh to 1 late in a hard run
    double variability = 1.0; ///< step-to-step spread, 0 repeats one step exactly
    bool planar = false;      ///< all landmarks in the one plane z = 0: no turning, no width
    bool overground = false;  ///< the runner passes a still camera; the ground does not move
};

/// Brown-Conrady lens as OpenCV documents it; all zero is no distortion.
struct Lens {
    double k1{};
    double k2{};
    double p1{};
    double p2{};
    double k3{};
    constexpr bool operator==(const Lens&) const = default;
};

struct CameraRecipe {
    View view = View::LeftSide;
    int width = 1280;              ///< pixels, even
    int height = 720;              ///< pixels, even
    double distance = 400.0;       ///< cm from the plane z = 0 (rear: from x = 0)
    double lensHeight = 95.0;      ///< cm above the belt
    std::optional<double> focal{}; ///< pixels; none: a picture about 4 m wide at the runner
    double roll = 0.0;             ///< degrees; positive turns the picture clockwise
    Lens lens{};
};

struct PictureRecipe {
    double noise = 2.0;          ///< standard deviation of the sensor noise, grey levels of 255
    double exposure = 0.002;     ///< s; the runner and the belt smear over it
    double lightingChange = 0.0; ///< share of brightness lost by the middle of the clip, 0 to 0.8
    bool handrail = false;       ///< a near handrail covers part of the runner
    double looseCloth = 0.0;     ///< cm by which shirt and shorts slide on the body as they flap
};

struct VideoRecipe {
    Codec codec = Codec::H264;
    double captureRate = 120.0;            ///< frames per real second
    std::optional<double> containerRate{}; ///< frames per second of the file; lower is slow motion
    bool captureRateTag = false;           ///< tell the capture rate in the metadata (mp4, mov)
    bool variableRate = false;             ///< uneven frame times with some frames dropped
    double duration = 2.0;                 ///< real seconds
    std::optional<int> kilobits{};         ///< a second of the file; none: good constant quality
    int keyInterval = 60;                  ///< frames between key frames, at most
};

/// All that decides a clip: the same recipe gives the same pictures and the same truth.
struct ClipRecipe {
    RunnerRecipe runner{};
    CameraRecipe camera{};
    PictureRecipe picture{};
    VideoRecipe video{};
};

} // namespace latemile::maker
