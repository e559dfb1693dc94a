// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/follow/followed_clip.hpp"

#include "sample_clips/maker/render_clip.hpp"

#include <algorithm>
#include <random>

namespace latemile::tests {

namespace {

std::size_t placeInTruth(Landmark landmark)
{
    const auto& names = maker::landmarkNames;
    return static_cast<std::size_t>(std::find(names.begin(), names.end(), nameOf(landmark)) -
                                    names.begin());
}

bool nearIsLeft(const maker::Truth& truth)
{
    return truth.recipe.camera.view == maker::View::LeftSide;
}

Scene sceneOf(const maker::Truth& truth)
{
    Scene scene;
    scene.view = nearIsLeft(truth) ? View::LeftSide : View::RightSide;
    scene.travel = nearIsLeft(truth) ? Travel::Left : Travel::Right;
    scene.scale = ScaleLine{truth.scaleBottom, truth.scaleTop, truth.scaleLengthCm};
    scene.plumb = PlumbLine{truth.scaleTop, truth.scaleBottom};
    if (!truth.recipe.runner.overground) {
        scene.beltSpeed = truth.recipe.runner.speed;
    }
    return scene;
}

} // namespace

FollowedClip::FollowedClip(const maker::ClipRecipe& recipe)
    : truth(maker::renderClip(recipe, folder / "clip.mp4").value()),
      reader(ClipReader::open(folder / "clip.mp4").value()), scene(sceneOf(truth))
{
}

BodySide FollowedClip::sideOf(maker::Foot foot) const
{
    return (foot == maker::Foot::Left) == nearIsLeft(truth) ? BodySide::Near : BodySide::Far;
}

PixelPoint FollowedClip::trueAt(const MarkKey& key) const
{
    const auto& frame = truth.frames[static_cast<std::size_t>(key.frame.value)];
    const bool isLeft = (key.side == BodySide::Near) == nearIsLeft(truth);
    return (isLeft ? frame.left : frame.right)[placeInTruth(key.landmark)];
}

Marking FollowedClip::oneStepOfEachFoot(std::size_t nth, double noise, unsigned seed) const
{
    std::mt19937 random(seed);
    std::normal_distribution<double> normal;
    Marking marking;
    std::array<std::size_t, 2> counted{};
    for (const auto& contact : truth.contacts) {
        if (counted[static_cast<std::size_t>(contact.foot)]++ != nth) {
            continue;
        }
        const auto middle = (contact.firstOn + contact.firstClear) / 2;
        const auto swing =
            contact.firstClear + static_cast<std::size_t>(0.2 * truth.recipe.video.captureRate);
        for (const auto frame : {contact.firstOn, middle, contact.firstClear, swing}) {
            if (frame >= truth.frames.size()) {
                continue;
            }
            for (const auto landmark : sideViewLandmarks) {
                const MarkKey key{
                    {static_cast<std::int64_t>(frame)}, sideOf(contact.foot), landmark};
                const double se =
                    std::max(0.5, defaultClickError(landmark) * truth.pixelsPerCm) * noise;
                auto at = trueAt(key);
                at.u += se * normal(random);
                at.v += se * normal(random);
                marking.marks[key] = Mark{at, Origin::Placed, std::max(se, 1e-6)};
            }
        }
    }
    return marking;
}

maker::ClipRecipe smallRunner(unsigned seed)
{
    maker::ClipRecipe recipe;
    recipe.runner.seed = seed;
    recipe.camera.width = 960;
    recipe.camera.height = 540;
    recipe.video.captureRate = 120.0;
    recipe.video.duration = 2.4;
    return recipe;
}

} // namespace latemile::tests
