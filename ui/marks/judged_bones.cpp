// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/judged_bones.hpp"

#include "core/marks/steps.hpp"
#include "core/scene/plane.hpp"
#include "ui/document/clip_document.hpp"

#include <set>

namespace latemile::ui {
namespace {

Marking judgedMarks(const ClipDocument& clip)
{
    std::set<FrameNumber> frames;
    for (const Step& step : clip.isOpen() ? clip.steps() : std::vector<Step>{}) {
        for (const auto instant :
             {Instant::Contact, Instant::MidStance, Instant::ToeOff, Instant::MidSwing}) {
            if (const auto frame = latemile::frameOf(step, instant, clip.index())) {
                frames.insert(*frame);
            }
        }
    }
    Marking judged;
    for (const auto& [key, mark] : clip.marking().marks) {
        if (mark.origin == Origin::Placed || frames.contains(key.frame)) {
            judged.marks.emplace_hint(judged.marks.end(), key, mark);
        }
    }
    return judged;
}

} // namespace

std::vector<OddBone> oddBonesOf(const ClipDocument& clip)
{
    if (!isSideView(clip.scene().view)) {
        return {};
    }
    const auto plane = Plane::from(clip.scene());
    return oddBones(judgedMarks(clip), [&plane](PixelPoint point) {
        return plane ? plane->toPlane(point) : PlanePoint{point.u, point.v};
    });
}

} // namespace latemile::ui
