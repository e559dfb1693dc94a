// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/picture.hpp"
#include "core/outcome.hpp"

#include <cstdint>
#include <filesystem>
#include <functional>
#include <span>
#include <vector>

namespace latemile {

/// Pictures of `count` frames spread over a clip, of all where it has no more, in order of time.
/// Takes a frame that needs no other to be decoded where one is nearer than half the way to the
/// next place, so that a long clip takes a fraction of its decoding time. `goOn` is asked between
/// them, with the share done, 0 to 1; false stops (Error::Kind::Cancelled).
[[nodiscard]] Outcome<std::vector<Picture>>
spreadPictures(const std::filesystem::path& file, int count,
               const std::function<bool(double)>& goOn = {});

/// Which frames those are. `groupStarts`: of each frame, the first one that has to be decoded for
/// it.
[[nodiscard]] std::vector<std::int64_t> spreadFrames(std::span<const std::int64_t> groupStarts,
                                                     int count);

} // namespace latemile
