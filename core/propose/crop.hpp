// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/picture.hpp"
#include "core/quantities.hpp"

#include <vector>

namespace latemile {

/// A box round the runner as the coach drags it, in pixels of the upright picture.
struct Box {
    double u{}; ///< of the left edge
    double v{}; ///< of the upper edge
    double width{};
    double height{};
    bool operator==(const Box&) const = default;
};

/// The square of the picture the network is shown, turned so that the runner stands upright in it.
struct Crop {
    PixelPoint centre;
    double size{};  ///< length of a side, pixels of the picture
    double angle{}; ///< radians clockwise by which the runner's "up" is off the picture's
    bool operator==(const Crop&) const = default;
};

/// Pixels a side of what the network looks at.
inline constexpr int cropPixels = 256;

/// A quarter more than the box: feet are lost from tighter crops (measured on side-on running).
[[nodiscard]] Crop cropRound(const Box& box);
/// Round a person whose mid hip is at `centre` and whose reach is marked by `reach`, the network's
/// own point for it.
[[nodiscard]] Crop cropRound(PixelPoint centre, PixelPoint reach);
/// The whole picture in a square.
[[nodiscard]] Crop cropRound(const Picture& picture);

/// A point of the crop (pixel edges, 0 to 256) in the picture.
[[nodiscard]] PixelPoint fromCrop(const Crop& crop, double x, double y);

/// What the network is fed: the crop as planes of red, green and blue, each 256 x 256 from 0 to 1,
/// black where it reaches beyond the picture. Shrinking smooths, so that no detail flickers.
[[nodiscard]] std::vector<float> networkInput(const Picture& picture, const Crop& crop);
/// The same before it becomes planes: 256 x 256 pixels of blue, green, red.
[[nodiscard]] std::vector<std::uint8_t> croppedPixels(const Picture& picture, const Crop& crop);

/// Where the crop lies on each frame when it is known on some. Frames may so be looked at in any
/// order: between two known ones centre, size and angle are interpolated, beyond them they stay.
class CropPath {
public:
    /// `known` in order of time, at least one.
    struct Known {
        Seconds time{};
        Crop crop;
    };
    explicit CropPath(std::vector<Known> known) : m_known(std::move(known)) {}
    [[nodiscard]] Crop at(Seconds time) const;
    [[nodiscard]] const std::vector<Known>& known() const { return m_known; }

private:
    std::vector<Known> m_known;
};

} // namespace latemile
