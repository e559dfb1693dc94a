// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/body_paths.hpp"

#include "core/propose/bone_lengths.hpp"
#include "core/propose/doubts.hpp"
#include "core/propose/leg_exchange.hpp"
#include "core/propose/smooth_path.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

constexpr std::size_t nose = 0;

bool isExchanged(Landmark landmark, const LegsSeen& legs)
{
    const bool isOfFoot =
        landmark == Landmark::Ankle || landmark == Landmark::Heel || landmark == Landmark::Toe;
    return isOfFoot ? legs.feetExchanged : landmark == Landmark::Knee && legs.kneesExchanged;
}

/// More than half of the bodies.
template <class Holds>
bool mostly(const std::vector<BodyPoints>& bodies, Holds holds)
{
    return 2 * std::count_if(bodies.begin(), bodies.end(), holds) >
           static_cast<std::ptrdiff_t>(bodies.size());
}

bool isUpsideDown(const BodyPoints& body)
{
    return body.midShoulder().v > body.midHip().v;
}

bool facesRight(const BodyPoints& body)
{
    const double ears = (body.left(Landmark::Ear).at.u + body.right(Landmark::Ear).at.u) / 2;
    return body.points[nose].at.u > ears;
}

Outcome<View> viewOf(const std::vector<BodyPoints>& bodies, std::optional<View> stated)
{
    if (stated) {
        RETURN_IF_ERROR(needSideView(*stated));
    }
    if (mostly(bodies, isUpsideDown)) {
        return fail(Error::Kind::Inconsistent,
                    "The runner is upside down in the picture: turn the clip in the camera's own "
                    "program and add it again.");
    }
    const View seen = mostly(bodies, facesRight) ? View::RightSide : View::LeftSide;
    if (stated && *stated != seen) {
        return fail(Error::Kind::Inconsistent,
                    std::string("The runner faces ") +
                        (seen == View::RightSide ? "right" : "left") +
                        ", but the scene calls it a " + std::string(nameOf(*stated)) +
                        " view, where runners face the other way: correct the view or mirror the "
                        "clip.");
    }
    return seen;
}

/// Whose points the network's left and right ones are, once exchanged legs are put back.
const BodyPoint& pointOf(const BodyPoints& body, BodyPart part, View view, const LegsSeen& legs)
{
    bool isLeft = (part.side == BodySide::Near) == (view == View::LeftSide);
    if (isExchanged(part.landmark, legs)) {
        isLeft = !isLeft;
    }
    return isLeft ? body.left(part.landmark) : body.right(part.landmark);
}

/// A faint point counts less against its neighbours, as its error is larger.
double weightOf(double peak)
{
    return std::exp(-10.0 * std::max(0.0, 0.92 - peak));
}

/// One landmark through the clip: `bodies` and `legs` one a frame of `paths`.
LandmarkPath pathOf(BodyPart part, const BodyPaths& paths, const std::vector<BodyPoints>& bodies,
                    const std::vector<LegsSeen>& legs)
{
    LandmarkPath path;
    std::vector<PathSample> samples;
    for (std::size_t k = 0; k < bodies.size(); ++k) {
        const auto& point = pointOf(bodies[k], part, paths.view, legs[k]);
        samples.push_back({paths.times[k], point.at, weightOf(point.peak)});
        path.peak.push_back(point.peak);
    }
    path.doubt = doubtsOf(samples, path.peak, paths.trunkPx);
    path.at = smoothed(samples);
    doubtUnlikeSmoothed(path, samples, paths.trunkPx);
    return path;
}

} // namespace

std::string_view wordsFor(Doubt doubt)
{
    switch (doubt) {
    case Doubt::None:
        break;
    case Doubt::Faint:
        return "it is hardly seen";
    case Doubt::Jumps:
        return "it jumps away from the frames before and after";
    case Doubt::OtherLength:
        return "its bone has another length than on other frames";
    case Doubt::AtEdge:
        return "it lies at the edge of the picture";
    case Doubt::LegUnsure:
        return "too few frames near it tell which leg it is";
    case Doubt::LegsAlike:
        return "near and far leg can be taken for each other here";
    case Doubt::TwoPlaces:
        return "following your marks leads to another place";
    }
    return "";
}

Outcome<void> needSideView(View view)
{
    if (!isSideView(view)) {
        return fail(Error::Kind::Unsupported,
                    "Landmarks are proposed for clips filmed from the side, and this one is a " +
                        std::string(nameOf(view)) + " view: place its marks by hand.");
    }
    return {};
}

Outcome<BodyPaths> bodyPathsFrom(const std::vector<FoundBody>& found, std::optional<View> view,
                                 int width, int height)
{
    BodyPaths paths;
    std::vector<BodyPoints> bodies;
    for (const auto& one : found) {
        if (one.body.presence >= someoneFrom) {
            paths.frames.push_back(one.frame);
            paths.times.push_back(one.time);
            bodies.push_back(one.body);
        }
    }
    if (bodies.empty()) {
        return fail(Error::Kind::NotFound,
                    "No runner was found in the picture: draw a box round the runner.");
    }
    const bool isStepAsked = found.back().time - found.front().time >= shortestStep;
    if (isStepAsked && bodies.size() < found.size() &&
        paths.times.back() - paths.times.front() < shortestStep) {
        return fail(Error::Kind::NotFound,
                    "The runner is in the picture for less than one step, so that no leg can be "
                    "told from the other: film several steps.");
    }
    ASSIGN_OR_RETURN(paths.view, viewOf(bodies, view));
    paths.trunkPx = trunkLength(bodies);
    const auto legs = legsSeen(bodies, paths.times);
    for (const auto& one : legs) {
        paths.legSureness.push_back(one.sureness);
    }
    for (const auto side : {BodySide::Near, BodySide::Far}) {
        for (const auto landmark : sideViewLandmarks) {
            paths.paths[{side, landmark}] = pathOf({side, landmark}, paths, bodies, legs);
        }
    }
    addDoubts(paths, width, height);
    holdBoneLengths(paths);
    if (const auto nobody = found.size() - bodies.size(); nobody > 0) {
        paths.remarks.push_back("On " + std::to_string(nobody) + " of " +
                                std::to_string(found.size()) +
                                " frames no runner was found: they have no proposals.");
    }
    return paths;
}

} // namespace latemile
