// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/runner_search.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstring>

namespace latemile {

namespace {

constexpr int looksAtWholePicture = 4; ///< each time closer: the crop follows what was found
constexpr int looksAtBox = 2;
/// The runner may come into the picture later: so many frames are tried.
constexpr std::size_t startsTried = 3;
constexpr double halfTurn = 3.14159265358979323846;

/// Looks `times` times, each time where the time before found the person.
Outcome<BodyPoints> closingIn(PoseNetwork& network, const Picture& picture, Crop crop, int times)
{
    BodyPoints body;
    for (int look = 0; look < times; ++look) {
        ASSIGN_OR_RETURN(body, network.find(picture, crop));
        if (body.presence < someoneFrom) {
            break;
        }
        crop = body.nextCrop;
    }
    return body;
}

/// The picture with a person painted over, so that only another can be found.
Picture without(const BodyPoints& body, const Picture& picture)
{
    double left = picture.width();
    double right = 0;
    double top = picture.height();
    double bottom = 0;
    for (const auto& point : body.points) {
        left = std::min(left, point.at.u);
        right = std::max(right, point.at.u);
        top = std::min(top, point.at.v);
        bottom = std::max(bottom, point.at.v);
    }
    const auto within = [](double place, int size) {
        return static_cast<int>(std::clamp(place, 0.0, static_cast<double>(size)));
    };
    const double margin = 0.1 * (bottom - top);
    const int from = within(left - margin, picture.width());
    const int to = std::max(from, within(right + margin, picture.width()));
    const auto bytes = picture.bytesPerRow() * static_cast<std::size_t>(picture.height());
    std::shared_ptr<std::uint8_t> pixels(new std::uint8_t[bytes],
                                         std::default_delete<std::uint8_t[]>());
    std::memcpy(pixels.get(), picture.row(0), bytes);
    for (int y = within(top - margin, picture.height());
         y < within(bottom + margin, picture.height()); ++y) {
        auto* row = pixels.get() + static_cast<std::size_t>(y) * picture.bytesPerRow();
        std::memset(row + 4 * from, 0, static_cast<std::size_t>(to - from) * 4);
    }
    return {picture.width(), picture.height(), picture.bytesPerRow(), std::move(pixels)};
}

/// Whether another person of about the runner's size stands to the left or right of her.
Outcome<bool> isSomeoneBeside(PoseNetwork& network, const Picture& picture,
                              const BodyPoints& runner)
{
    const auto rest = without(runner, picture);
    const auto& crop = runner.nextCrop;
    for (const double aside : {-1.1, -0.55, 0.55, 1.1}) { // overlapping squares, hers left out
        const PixelPoint centre{crop.centre.u + aside * crop.size, crop.centre.v};
        if (centre.u < 0 || centre.u > picture.width()) {
            continue;
        }
        ASSIGN_OR_RETURN(const auto other, network.find(rest, {centre, crop.size, 0.0}));
        if (other.presence >= someoneFrom) {
            return true;
        }
    }
    return false;
}

double meanPeak(const BodyPoints& body)
{
    double sum = 0;
    for (const auto& point : body.points) {
        sum += point.peak;
    }
    return sum / static_cast<double>(body.points.size());
}

/// The network sees somebody in a person on her head or her side too, but hardly any of her points;
/// turned round it sees them sharply (0.8 to 0.9 against 0.3 to 0.6, measured on rendered clips).
/// The body as it is seen sharpest.
Outcome<BodyPoints> sharpest(PoseNetwork& network, const Picture& picture, const Crop& crop,
                             BodyPoints body)
{
    constexpr double sharp = 0.7;
    for (const double turn : {1.0, 0.5, -0.5}) {
        auto turned = crop;
        turned.angle += turn * halfTurn;
        ASSIGN_OR_RETURN(auto seen, network.find(picture, turned));
        if (seen.presence >= someoneFrom && meanPeak(seen) > std::max(sharp, meanPeak(body))) {
            body = std::move(seen);
        }
    }
    return body;
}

/// Refuses a picture in which the runner does not stand upright, as where its rotation is missing.
/// `crop` is where she was looked for, or found.
Outcome<void> needUpright(PoseNetwork& network, const Picture& picture, const Crop& crop,
                          const BodyPoints& asItIs)
{
    ASSIGN_OR_RETURN(const auto body, sharpest(network, picture, crop, asItIs));
    if (body.presence < someoneFrom) {
        return {};
    }
    const double across = std::abs(body.midShoulder().u - body.midHip().u);
    const double up = body.midHip().v - body.midShoulder().v;
    if (up > across) {
        return {};
    }
    const std::string how = -up > across ? "is upside down" : "lies on her side";
    return fail(Error::Kind::Unsupported, "The runner " + how +
                                              " in the picture: turn the clip in the camera's own "
                                              "program and add it again.");
}

/// Every frame that lies a key interval from the last one taken, `taken` at first, and the last
/// frame. `frames` in order or in reverse.
std::vector<FrameNumber> keyFramesOf(const FrameIndex& index,
                                     const std::vector<FrameNumber>& frames, Seconds taken)
{
    std::vector<FrameNumber> keys;
    for (const auto frame : frames) {
        if (std::chrono::abs(index.time(frame) - taken) >= keyInterval) {
            keys.push_back(frame);
            taken = index.time(frame);
        }
    }
    if (!frames.empty() && (keys.empty() || keys.back() != frames.back())) {
        keys.push_back(frames.back());
    }
    return keys;
}

Outcome<void> goOn(const SearchWatch& watch)
{
    if (watch.stop.stop_requested()) {
        return fail(Error::Kind::Cancelled, "The proposals were stopped.");
    }
    return {};
}

using Known = CropPath::Known;

/// Where the runner is first: in the coach's box, or on the first of three frames that has her.
Outcome<Known> startOf(const FrameReader& read, const FrameIndex& index, PoseNetwork& network,
                       const std::vector<FrameNumber>& frames, const std::optional<RunnerBox>& box)
{
    if (box) {
        ASSIGN_OR_RETURN(const auto frame, read(box->frame));
        ASSIGN_OR_RETURN(const auto crop, findRunner(network, frame.picture, box->box));
        return Known{index.time(box->frame), crop};
    }
    Outcome<Known> start = Known{};
    const auto tries = std::min(startsTried, frames.size());
    for (std::size_t n = 0; n < tries; ++n) {
        const auto number = frames[n * frames.size() / tries];
        ASSIGN_OR_RETURN(const auto frame, read(number));
        const auto crop = findRunner(network, frame.picture, std::nullopt);
        if (crop) {
            return Known{index.time(number), *crop};
        }
        start = tl::unexpected<Error>(crop.error());
        if (crop.error().kind != Error::Kind::NotFound) {
            break;
        }
    }
    return start;
}

/// How far a path has come, of all its key frames.
struct Progress {
    std::size_t done{};
    std::size_t all{};
};

/// Follows the runner from where `start` has her through `keys`: where she is on them.
Outcome<std::vector<Known>> followed(const FrameReader& read, const FrameIndex& index,
                                     PoseNetwork& network, const std::vector<FrameNumber>& keys,
                                     const Known& start, Progress& progress,
                                     const SearchWatch& watch)
{
    std::vector<Known> known;
    auto crop = start.crop;
    for (const auto key : keys) {
        RETURN_IF_ERROR(goOn(watch));
        ASSIGN_OR_RETURN(const auto frame, read(key));
        ASSIGN_OR_RETURN(const auto body, network.find(frame.picture, crop));
        if (body.presence >= someoneFrom) {
            crop = body.nextCrop;
            known.push_back({index.time(key), crop});
        }
        if (watch.tell) {
            watch.tell(++progress.done, progress.all);
        }
    }
    if (!keys.empty() && (known.empty() || known.back().time != index.time(keys.back()))) {
        known.push_back({index.time(keys.back()), crop}); // searched: who goes on begins there
    }
    return known;
}

} // namespace

Outcome<Crop> findRunner(PoseNetwork& network, const Picture& picture,
                         const std::optional<Box>& box)
{
    const auto first = box ? cropRound(*box) : cropRound(picture);
    ASSIGN_OR_RETURN(const auto body,
                     closingIn(network, picture, first, box ? looksAtBox : looksAtWholePicture));
    const bool someone = body.presence >= someoneFrom;
    RETURN_IF_ERROR(needUpright(network, picture, someone ? body.nextCrop : first, body));
    if (!someone) {
        return fail(Error::Kind::NotFound,
                    box ? "No runner was found in the box: draw it round the whole runner."
                        : "No runner was found in the picture: draw a box round the runner.");
    }
    if (!box) {
        ASSIGN_OR_RETURN(const bool another, isSomeoneBeside(network, picture, body));
        if (another) {
            return fail(Error::Kind::Inconsistent, "More than one person is in the picture: draw a "
                                                   "box round the runner.");
        }
    }
    return body.nextCrop;
}

Outcome<CropPath> runnersStart(const FrameReader& read, const FrameIndex& index,
                               PoseNetwork& network, const std::vector<FrameNumber>& frames,
                               const std::optional<RunnerBox>& box)
{
    assert(!frames.empty());
    ASSIGN_OR_RETURN(const auto start, startOf(read, index, network, frames, box));
    return CropPath({start});
}

Outcome<CropPath> pathOnward(const FrameReader& read, const FrameIndex& index, PoseNetwork& network,
                             const std::vector<FrameNumber>& frames, const CropPath& path,
                             const SearchWatch& watch)
{
    auto known = path.known();
    std::vector<FrameNumber> before;
    std::vector<FrameNumber> after;
    for (const auto frame : frames) {
        if (index.time(frame) < known.front().time) {
            before.push_back(frame);
        } else if (index.time(frame) > known.back().time) {
            after.push_back(frame);
        }
    }
    std::reverse(before.begin(), before.end());
    const auto back = keyFramesOf(index, before, known.front().time);
    const auto on = keyFramesOf(index, after, known.back().time);
    Progress progress{0, back.size() + on.size()};
    ASSIGN_OR_RETURN(auto earlier,
                     followed(read, index, network, back, known.front(), progress, watch));
    ASSIGN_OR_RETURN(const auto later,
                     followed(read, index, network, on, known.back(), progress, watch));
    std::reverse(earlier.begin(), earlier.end());
    known.insert(known.begin(), earlier.begin(), earlier.end());
    known.insert(known.end(), later.begin(), later.end());
    return CropPath(std::move(known));
}

Outcome<CropPath> cropPathThrough(const FrameReader& read, const FrameIndex& index,
                                  PoseNetwork& network, const std::vector<FrameNumber>& frames,
                                  const std::optional<RunnerBox>& box, const SearchWatch& watch)
{
    ASSIGN_OR_RETURN(const auto start, runnersStart(read, index, network, frames, box));
    return pathOnward(read, index, network, frames, start, watch);
}

Outcome<void> needWholeStep(const FrameIndex& index)
{
    const FrameNumber last{index.size() - 1};
    if (index.time(last) + index.interval(last) < shortestStep) {
        return fail(Error::Kind::Inconsistent,
                    "The clip is shorter than one step, so that no leg can be told from the other: "
                    "film several steps.");
    }
    return {};
}

Outcome<std::vector<FoundBody>> searchClip(const FrameReader& read, const FrameIndex& index,
                                           PoseNetwork& network,
                                           const std::vector<FrameNumber>& frames,
                                           const std::optional<Box>& box, const SearchWatch& watch)
{
    RETURN_IF_ERROR(needWholeStep(index));
    const auto boxed = box ? std::optional(RunnerBox{frames.front(), *box}) : std::nullopt;
    ASSIGN_OR_RETURN(const auto path,
                     cropPathThrough(read, index, network, frames, boxed, {watch.stop, {}}));
    std::vector<FoundBody> found;
    for (const auto number : frames) {
        RETURN_IF_ERROR(goOn(watch));
        ASSIGN_OR_RETURN(const auto frame, read(number));
        ASSIGN_OR_RETURN(const auto body, network.find(frame.picture, path.at(index.time(number))));
        found.push_back({number, index.time(number), body});
        if (watch.tell) {
            watch.tell(found.size(), frames.size());
        }
    }
    return found;
}

} // namespace latemile
