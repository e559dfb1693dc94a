// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/propose/body_paths.hpp"

namespace latemile::tests {

/// A made-up runner as the network would see her: `frames` of them, 1/60 s apart, all points sharp,
/// hips at (400, 300), trunk 100 px, legs swinging at 1.5 strides a second. Facing left the
/// network's left leg is the near one.
struct ModelledRunner {
    bool facesRight{};
    int frames{40};
    std::vector<FoundBody> bodies() const;
};

/// Where that runner's landmark is on that frame, near or far.
PixelPoint placeOf(const ModelledRunner& runner, int frame, BodySide side, Landmark landmark);

} // namespace latemile::tests
