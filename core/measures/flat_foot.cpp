// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/angles.hpp"
#include "core/measures/prepared_clip.hpp"
#include "core/median.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace latemile {

namespace {

constexpr double flatFrom = 0.25; // share of stance
constexpr double flatTo = 0.50;

struct FlatFrame {
    FrameNumber frame;
    PlanePoint heel;
    double degrees{};
    double degreesSe{};
    double heelSe{};
    int path{-1}; ///< of the heel
};

FlatFrame frameFrom(FrameNumber frame, const MarkTracks::Point& heel, const MarkTracks::Point& toe,
                    const Plane& plane)
{
    const double k = plane.cmPerPixel(heel.mark.at);
    const double length = std::hypot(toe.plane.x - heel.plane.x, toe.plane.y - heel.plane.y);
    const double se = std::hypot(heel.sePx, toe.sePx) * k / length * 180.0 / std::numbers::pi;
    return {frame, heel.plane, footDegrees(heel.plane, toe.plane), se, heel.sePx * k, heel.path};
}

std::vector<FlatFrame> flatFrames(const PreparedClip& clip)
{
    std::vector<FlatFrame> found;
    for (const auto& step : clip.steps) {
        if (step.foot != clip.nearFoot() || !step.toeOff || step.gap) {
            continue;
        }
        const auto stance = *step.toeOff - step.contact;
        // Half a frame more, since mid-stance is read on the frame nearest to it.
        const auto from = step.contact + flatFrom * stance;
        const auto to = step.contact + flatTo * stance + 0.55 * clip.frameInterval;
        const auto first = clip.index.firstAtOrAfter(from);
        for (const auto frame : clip.tracks.framesFrom(first, BodySide::Near, Landmark::Heel)) {
            const auto time = clip.index.time(frame);
            if (time > to) {
                break;
            }
            const auto* toe = clip.tracks.find({frame, BodySide::Near, Landmark::Toe});
            if (toe) {
                const auto* heel = clip.tracks.find({frame, BodySide::Near, Landmark::Heel});
                if (heel->mark.at == toe->mark.at) {
                    continue; // no direction
                }
                found.push_back(frameFrom(frame, *heel, *toe, clip.plane));
            }
        }
    }
    return found;
}

template <class Member>
double medianOf(const std::vector<FlatFrame>& frames, Member member)
{
    std::vector<double> values;
    for (const auto& frame : frames) {
        values.push_back(member(frame));
    }
    return latemile::medianOf(std::move(values));
}

} // namespace

std::optional<FlatFoot> flatFootOf(const PreparedClip& clip)
{
    const auto frames = flatFrames(clip);
    if (frames.empty()) {
        return std::nullopt;
    }
    std::vector<int> paths;
    for (const auto& frame : frames) {
        paths.push_back(frame.path);
    }
    const double ofMean = std::sqrt(varianceOfMean(std::move(paths)));
    // A median of n is less sure than a mean of n (large n, normal errors); of one or two it is the
    // mean.
    const double loss = frames.size() > 2 ? std::sqrt(std::numbers::pi / 2.0) : 1.0;
    FlatFoot flat;
    flat.degrees = medianOf(frames, [](const FlatFrame& f) { return f.degrees; });
    flat.degreesSe =
        loss * medianOf(frames, [](const FlatFrame& f) { return f.degreesSe; }) * ofMean;
    flat.heel = {medianOf(frames, [](const FlatFrame& f) { return f.heel.x; }),
                 medianOf(frames, [](const FlatFrame& f) { return f.heel.y; })};
    flat.heelSe = loss * medianOf(frames, [](const FlatFrame& f) { return f.heelSe; }) * ofMean;
    for (const auto& frame : frames) {
        flat.frames.push_back(frame.frame);
    }
    return flat;
}

} // namespace latemile
