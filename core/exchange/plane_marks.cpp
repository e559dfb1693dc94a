// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/plane_marks.hpp"

namespace latemile {

Outcome<void> needPlaneMarks(const PreparedClip& clip, const Marking& marking)
{
    if (marking.marks.empty()) {
        return fail(Error::Kind::NotFound, "The clip " + clip.conditions.file +
                                               " has no mark yet: there is nothing to write.");
    }
    if (!clip.plane.hasScale()) {
        return fail(Error::Kind::Inconsistent,
                    "The clip " + clip.conditions.file +
                        " has no scale, so its points have no place in millimetres: draw a scale "
                        "line first, or take the marks in pixels.");
    }
    return {};
}

} // namespace latemile
