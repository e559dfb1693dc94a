// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sheet/still_crop.hpp"

#include <algorithm>

namespace latemile {
namespace {

/// A box around the hip, in cm: left and top are negative.
struct Reach {
    double left{}, right{}, top{}, bottom{};
};

Reach reachOf(const std::vector<CropInput>& stills)
{
    Reach reach;
    for (const CropInput& input : stills) {
        for (const StillMark& mark : input.still->landmarks) {
            const double across = (mark.at.u - input.hip.u) * input.cmPerPixel;
            const double down = (mark.at.v - input.hip.v) * input.cmPerPixel;
            reach.left = std::min(reach.left, across);
            reach.right = std::max(reach.right, across);
            reach.top = std::min(reach.top, down);
            reach.bottom = std::max(reach.bottom, down);
        }
    }
    return reach;
}

/// Shares of the marked height: from the ear to above the crown, below the sole, beside the body.
void addMargins(Reach& reach)
{
    const double height = std::max(reach.bottom - reach.top, 1e-6);
    reach.top -= 0.16 * height;
    reach.bottom += 0.07 * height;
    reach.left -= 0.08 * height;
    reach.right += 0.08 * height;
}

void widenTo(double aspect, Reach& reach)
{
    const double width = reach.right - reach.left;
    const double height = reach.bottom - reach.top;
    const double missingWidth = std::max(aspect * height - width, 0.0);
    const double missingHeight = std::max(width / aspect - height, 0.0);
    reach.left -= missingWidth / 2.0;
    reach.right += missingWidth / 2.0;
    reach.top -= missingHeight / 2.0;
    reach.bottom += missingHeight / 2.0;
}

} // namespace

void cropAlike(const std::vector<CropInput>& stills)
{
    Reach reach = reachOf(stills);
    addMargins(reach);
    widenTo(stillAspect, reach);
    for (const CropInput& input : stills) {
        const double pixels = 1.0 / input.cmPerPixel;
        input.still->cropFrom = {input.hip.u + reach.left * pixels,
                                 input.hip.v + reach.top * pixels};
        input.still->cropTo = {input.hip.u + reach.right * pixels,
                               input.hip.v + reach.bottom * pixels};
    }
}

} // namespace latemile
