// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"
#include "core/marks/marking.hpp"
#include "core/scene/scene.hpp"
#include "sample_clips/maker/recipe.hpp"
#include "sample_clips/maker/truth.hpp"
#include "tests/scratch_folder.hpp"

namespace latemile::tests {

/// A rendered clip and what is exactly known of it.
struct FollowedClip {
    explicit FollowedClip(const maker::ClipRecipe& recipe);

    ScratchFolder folder;
    maker::Truth truth;
    ClipReader reader;
    Scene scene;

    [[nodiscard]] BodySide sideOf(maker::Foot foot) const;
    [[nodiscard]] PixelPoint trueAt(const MarkKey& key) const;
    /// True places of the side view's landmarks on the frame of a contact, of mid-stance, of
    /// toe-off and 0.2 s later, of the `nth` stance of each side, each moved by a click's default
    /// error times `noise`.
    [[nodiscard]] Marking oneStepOfEachFoot(std::size_t nth, double noise, unsigned seed) const;
    [[nodiscard]] double cmPerPixel() const { return 1.0 / truth.pixelsPerCm; }
};

/// 960 x 540 pixels, 120 frames/s, from the left.
[[nodiscard]] maker::ClipRecipe smallRunner(unsigned seed);

} // namespace latemile::tests
