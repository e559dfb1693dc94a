// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/runner_search.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstring>
#include <iterator>

namespace latemile {

namespace {

/// A quick runner's step; no gait is told from less.
constexpr Seconds shortestStep{0.25};
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

/// Every frame that lies a key interval from the last one taken, and the last frame. `frames` in
/// order or in reverse.
std::vector<FrameNumber> keyFramesOf(const FrameIndex& index,
                                     const std::vector<FrameNumber>& frames)
{
    std::vector<FrameNumber> keys{frames.front()};
    for (const auto frame : frames) {
        if (std::chrono::abs(index.time(frame) - index.time(keys.back())) >= keyInterval) {
            keys.push_back(frame);
        }
    }
    if (keys.back() != frames.back()) {
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

/// The place in `keys` from which the runner is followed, and where she is there.
struct Start {
    std::size_t key{};
    Crop crop;
};

Outcome<Start> startOf(const FrameReader& read, PoseNetwork& network,
                       const std::vector<FrameNumber>& keys)
{
    Outcome<Start> start = Start{};
    const auto tries = std::min(startsTried, keys.size());
    for (std::size_t n = 0; n < tries; ++n) {
        const auto key = n * keys.size() / tries;
        ASSIGN_OR_RETURN(const auto frame, read(keys[key]));
        const auto crop = findRunner(network, frame.picture, std::nullopt);
        if (crop) {
            return Start{key, *crop};
        }
        start = tl::unexpected<Error>(crop.error());
        if (crop.error().kind != Error::Kind::NotFound) {
            break;
        }
    }
    return start;
}

using Known = std::vector<CropPath::Known>;

/// Follows the runner from where the last of `known` has her, through `keys` from number `from` on.
Outcome<Known> followed(const FrameReader& read, const FrameIndex& index, PoseNetwork& network,
                        const std::vector<FrameNumber>& keys, std::size_t from, Known known,
                        const SearchWatch& watch)
{
    for (auto key = from; key < keys.size(); ++key) {
        RETURN_IF_ERROR(goOn(watch));
        ASSIGN_OR_RETURN(const auto frame, read(keys[key]));
        ASSIGN_OR_RETURN(const auto body, network.find(frame.picture, known.back().crop));
        if (body.presence >= someoneFrom) {
            known.push_back({index.time(keys[key]), body.nextCrop});
        }
        if (watch.tell) {
            watch.tell(key + 1, keys.size());
        }
    }
    return known;
}

/// From the frame of the box to the end of `frames`, and back to their beginning.
Outcome<Known> followedFromBox(const FrameReader& read, const FrameIndex& index,
                               PoseNetwork& network, const std::vector<FrameNumber>& frames,
                               const RunnerBox& box, const SearchWatch& watch)
{
    ASSIGN_OR_RETURN(const auto picture, read(box.frame));
    ASSIGN_OR_RETURN(const auto crop, findRunner(network, picture.picture, box.box));
    const CropPath::Known start{index.time(box.frame), crop};
    const auto middle = std::upper_bound(frames.begin(), frames.end(), box.frame);
    std::vector<FrameNumber> on{box.frame};
    on.insert(on.end(), middle, frames.end());
    std::vector<FrameNumber> back{box.frame};
    back.insert(back.end(), std::make_reverse_iterator(middle), frames.rend());
    ASSIGN_OR_RETURN(auto before,
                     followed(read, index, network, keyFramesOf(index, back), 1, {start}, watch));
    ASSIGN_OR_RETURN(const auto after,
                     followed(read, index, network, keyFramesOf(index, on), 1, {start}, watch));
    std::reverse(before.begin(), before.end());
    before.insert(before.end(), std::next(after.begin()), after.end());
    return before;
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

Outcome<CropPath> cropPathThrough(const FrameReader& read, const FrameIndex& index,
                                  PoseNetwork& network, const std::vector<FrameNumber>& frames,
                                  const std::optional<RunnerBox>& box, const SearchWatch& watch)
{
    assert(!frames.empty());
    if (box) {
        ASSIGN_OR_RETURN(auto known, followedFromBox(read, index, network, frames, *box, watch));
        return CropPath(std::move(known));
    }
    const auto keys = keyFramesOf(index, frames);
    ASSIGN_OR_RETURN(const auto start, startOf(read, network, keys));
    ASSIGN_OR_RETURN(auto known, followed(read, index, network, keys, start.key + 1,
                                          {{index.time(keys[start.key]), start.crop}}, watch));
    return CropPath(std::move(known));
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
