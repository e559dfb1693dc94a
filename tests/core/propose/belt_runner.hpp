// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/propose/body_points.hpp"
#include "core/quantities.hpp"

#include <vector>

namespace latemile::tests {

/// A made-up runner facing left on a belt, as the network would see her at 120 frames a second:
/// hips at (0, 0), trunk 100 px, each foot for 0.3 s on the belt that carries it by 400 px/s to the
/// right, and for 0.42 s in the air; the left one stands first, from 0.05 s on.
struct BeltRunner {
    std::vector<BodyPoints> bodies;
    std::vector<Seconds> times; ///< one a body

    explicit BeltRunner(std::size_t frames);

    /// Before all this she stands still for so long, as on the first frame.
    void standBefore(std::size_t frames);
    /// Left and right are taken for each other, knees and feet.
    void exchangeLegs(std::size_t frame);
    /// Both legs are seen where their middle is, as behind a post.
    void mergeLegs(std::size_t frame);
};

/// Whether the foot of that runner stands on that frame.
bool stands(std::size_t frame, bool isLeft);

} // namespace latemile::tests
