// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "sample_clips/maker/colour.hpp"
#include "sample_clips/maker/geometry.hpp"
#include "sample_clips/maker/noise.hpp"
#include "sample_clips/maker/profile.hpp"

#include <opencv2/core.hpp>

namespace latemile::maker {

/// The colours of one runner's skin and clothes.
struct Outfit {
    Colour skin, hair, shirt, shirtTrim, shorts, shortsTrim, sock, shoe, shoeTrim, sole;
};
[[nodiscard]] Outfit outfitOf(std::uint64_t seed);

/// What colour a part has at a place on it: `along` its axis and `across` towards its front, cm.
using Cloth = Colour (*)(const Outfit& outfit, double along, double across);

/// Where a part's own plane lies in the picture: one cm along it and one towards the front.
struct Placement {
    Vec2 origin; ///< pixels
    Vec2 along;  ///< pixels per cm
    Vec2 across; ///< pixels per cm
};

/// Paints body parts as rounded, lit and textured shapes with smooth edges. The texture is fixed to
/// the part, so it moves as skin and cloth do.
class PartPainter {
public:
    PartPainter(const Outfit& outfit, const Relief& relief) : m_outfit(outfit), m_relief(relief) {}

    /// `picture` holds the part of the whole picture whose top left corner is `corner`, 8-bit BGR.
    /// `slip`: how far the cloth has slid along and across the part, cm.
    void paint(cv::Mat& picture, Vec2 corner, const Profile& profile, const Placement& place,
               Cloth cloth, double brightness, Vec2 slip = {}) const;

private:
    const Outfit& m_outfit;
    const Relief& m_relief;
};

} // namespace latemile::maker
