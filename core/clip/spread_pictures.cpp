// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/spread_pictures.hpp"

#include "core/clip/open_clip.hpp"

#include <algorithm>

namespace latemile {

namespace {

/// The frame nearest to `place` that is decoded by itself, or `place` where none is near.
std::int64_t cheapNear(std::int64_t place, std::int64_t reach,
                       std::span<const std::int64_t> groupStarts)
{
    const auto isOwnStart = [&](std::int64_t frame) {
        return frame >= 0 && frame < std::ssize(groupStarts) &&
               groupStarts[static_cast<std::size_t>(frame)] == frame;
    };
    for (std::int64_t away = 0; away <= reach; ++away) {
        for (const auto frame : {place - away, place + away}) {
            if (isOwnStart(frame)) {
                return frame;
            }
        }
    }
    return place;
}

} // namespace

std::vector<std::int64_t> spreadFrames(std::span<const std::int64_t> groupStarts, int count)
{
    const auto frames = std::ssize(groupStarts);
    const auto wanted = std::min<std::int64_t>(count, frames);
    std::vector<std::int64_t> spread;
    for (std::int64_t i = 0; i < wanted; ++i) {
        const auto place = wanted == 1 ? 0 : i * (frames - 1) / (wanted - 1);
        // Less than half a share, so that no frame is taken twice.
        const auto reach = wanted == 1 ? 0 : ((frames - 1) / (wanted - 1) - 1) / 2;
        spread.push_back(cheapNear(place, reach, groupStarts));
    }
    return spread;
}

Outcome<std::vector<Picture>> spreadPictures(const std::filesystem::path& file, int count,
                                             const std::function<bool(double)>& goOn)
{
    ClipOptions options;
    options.goOn = goOn ? [&goOn](double share) { return goOn(share / 4.0); } : goOn;
    ASSIGN_OR_RETURN(auto clip, openClip(file, options));
    const auto frames = spreadFrames(clip.pictures->groupStarts(), count);
    UprightMaker upright(clip.shape);
    std::vector<Picture> pictures;
    for (const auto frame : frames) {
        const auto share =
            static_cast<double>(pictures.size()) / static_cast<double>(frames.size());
        if (goOn && !goOn(0.25 + 0.75 * share)) {
            return fail(Error::Kind::Cancelled, "Looking at the clip was stopped.");
        }
        ASSIGN_OR_RETURN(const auto decoded, clip.pictures->picture(frame, {}));
        ASSIGN_OR_RETURN(auto picture, upright.make(*decoded));
        pictures.push_back(std::move(picture));
    }
    return pictures;
}

} // namespace latemile
