// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/propose/proposals.hpp"
#include "tests/bench/propose_truth.hpp"

#include <vector>

namespace latemile::bench {

/// The value that the share (0 to 1) of all does not exceed; 0 of none.
[[nodiscard]] double quantile(std::vector<double> values, double share);

/// Of one landmark: how far its proposals lie off, and how many, per axis, within two errors.
struct Misses {
    std::vector<double> cm;
    double within{};
    double axes{};
    std::size_t doubtful{};
    std::size_t farOff{}; ///< more than 15 cm, and not doubted
    void add(const Truth& truth, PixelPoint at, const Proposal& proposal);
};
using MissesByPart = std::map<BodyPart, Misses>;

/// Of the far side the lower leg alone.
void add(MissesByPart& misses, const Truth& truth, const Proposals& proposals);

/// On how many frames near and far leg are told, and on how many of these each lies nearer to where
/// the other truly is.
struct LegsTold {
    std::size_t frames{};
    std::size_t exchanged{};
};
[[nodiscard]] LegsTold legsTold(const Truth& truth, const Proposals& proposals);

/// Of one foot's contacts or toe-offs that lie 50 ms or more inside the clip.
struct EventMisses {
    std::vector<double> ms; ///< each found one's distance from the true one
    int all{};
    int withinFrame{};     ///< of a clip of 120 frames/s: 8.4 ms
    int withinTwoErrors{}; ///< of those found
    void add(const EventMisses& other);
};
enum class Event { Contact, ToeOff };
[[nodiscard]] EventMisses missesOf(const Truth& truth, Seconds clipsEnd, Foot foot, Event event,
                                   const std::vector<Stance>& found);

/// What the network sees on these frames, kept beside the clip for the next time.
[[nodiscard]] std::vector<FoundBody> looksAt(ClipReader& clip, const std::filesystem::path& file,
                                             const std::vector<FrameNumber>& frames);

} // namespace latemile::bench
