// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/libav_owners.hpp"
#include "core/outcome.hpp"

#include <cstdint>
#include <functional>
#include <vector>

namespace latemile {

/// Told of each picture that was decoded on the way to the one asked for, and of that one too, in
/// rising order as far as the file allows. Returning false gives up the way.
using Passing = std::function<bool(std::int64_t rank, const SharedAvFrame& picture)>;

/// The pictures of a clip in the decoder's own format, by their rank in the order of presentation.
class DecodedPictures {
public:
    DecodedPictures() = default;
    DecodedPictures(const DecodedPictures&) = delete;
    DecodedPictures& operator=(const DecodedPictures&) = delete;
    virtual ~DecodedPictures() = default;

    /// Exactly the picture that decoding from the start gives. Errors: the picture is damaged in
    /// the file; `passing` gave up (Error::Kind::Cancelled).
    virtual Outcome<SharedAvFrame> picture(std::int64_t rank, const Passing& passing) = 0;
    /// The first rank that decoding has to pass on the way to this one.
    [[nodiscard]] virtual std::int64_t groupStart(std::int64_t rank) const = 0;
    /// That of every rank, at once.
    [[nodiscard]] virtual std::vector<std::int64_t> groupStarts() const = 0;
    [[nodiscard]] virtual std::int64_t count() const = 0;
    /// From any thread: nothing is asked any more, and what is being asked need not be answered.
    virtual void giveUp() {}
};

} // namespace latemile
