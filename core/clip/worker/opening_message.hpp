// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"
#include "core/clip/upright.hpp"
#include "core/clip/worker/packing.hpp"
#include "core/outcome.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace latemile {

/// What a worker is asked to open; the descriptor of the file comes beside it.
struct OpeningQuestion {
    std::string name; ///< of the file, without its folder
    std::int64_t size{};
    ClipOptions options; ///< of `goOn` only whether there is one
};
[[nodiscard]] Packing packed(const OpeningQuestion& question);
[[nodiscard]] std::optional<OpeningQuestion> openingQuestion(std::span<const std::byte> bytes);

/// What a worker found the file to be.
struct OpeningAnswer {
    UprightShape shape;
    ClipFacts facts;
    FrameIndex index;
    std::vector<std::int64_t> groupStarts; ///< one a frame, DecodedPictures::groupStart
};
[[nodiscard]] Packing packed(const OpeningAnswer& answer);
/// Nothing where it cannot be true: a worker that reads a hostile file may say anything.
[[nodiscard]] std::optional<OpeningAnswer> openingAnswer(std::span<const std::byte> bytes);

[[nodiscard]] Packing packed(const Error& error);
[[nodiscard]] std::optional<Error> errorIn(std::span<const std::byte> bytes);

} // namespace latemile
