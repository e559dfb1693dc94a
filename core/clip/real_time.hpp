// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/libav_owners.hpp"
#include "core/outcome.hpp"

#include <optional>
#include <string>
#include <vector>

namespace latemile {

/// How the file's own time and real time go together.
struct RealTime {
    double captureRate{};   ///< frames per real second
    double slowMotion{1.0}; ///< file's seconds per real second
    std::string from;       ///< "time stamps", "stated", or the metadata key it was read from
};

/// A capture rate found in the metadata of a file, where phones write it for slow motion.
struct CaptureRateFound {
    double rate{};
    std::string key;
};
[[nodiscard]] std::optional<CaptureRateFound> captureRateIn(const AVFormatContext& demuxer,
                                                            const AVStream& stream);

/// `containerRate` in frames/s by the file's own clock. What the coach states goes before what the
/// file says. Error: a stated rate that is no number above 0 and at most 100000. What was found is
/// added to `remarks` in words.
[[nodiscard]] Outcome<RealTime> realTime(double containerRate, std::optional<double> stated,
                                         const std::optional<CaptureRateFound>& found,
                                         std::vector<std::string>& remarks);

} // namespace latemile
