// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/frame_index.hpp"
#include "core/clip/picture.hpp"
#include "core/clip/shades.hpp"
#include "core/outcome.hpp"

#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace latemile {

/// One frame of a clip: its place, its real time and its upright picture.
struct Frame {
    FrameNumber number;
    Seconds time{};
    Picture picture;
};

/// What the coach states about a file before it is read.
struct ClipOptions {
    std::optional<double> captureRate; ///< frames per real second, where the file does not say; > 0
    bool fieldsAsFrames = false;       ///< interlaced files: one picture a field, at twice the rate
    std::optional<int> videoStream; ///< index of the stream in the file; none: the best one that is
                                    ///< no cover picture
    /// Asked now and then while the headers are read, with the share done, 0 to 1; false stops the
    /// opening (Error::Kind::Cancelled). On the thread that opens.
    std::function<bool(double)> goOn{};
};

/// What a file was found to be, in facts and in words.
struct ClipFacts {
    std::string container; ///< libav's short name: "mov,mp4,..."
    std::string codec;     ///< "h264", "hevc", ...
    std::string pixelFormat;
    int width{}; ///< of the upright picture, pixels
    int height{};
    int storedWidth{}; ///< as coded
    int storedHeight{};
    int rotationDegrees{}; ///< clockwise turn that brings the stored picture upright: 0, 90, 180,
                           ///< 270
    bool mirrored{};       ///< the file asks for a mirrored picture
    double pixelAspect{1.0};
    std::string colour; ///< in words: "BT.709, limited range"
    bool highDynamicRange{};
    bool interlaced{};
    std::int64_t frames{};
    double containerRate{};      ///< frames per second of the file's own time, from its time stamps
    double captureRate{};        ///< frames per real second
    double slowMotion{1.0};      ///< captureRate / containerRate
    std::string captureRateFrom; ///< "time stamps", "stated", or the metadata key it was read from
    std::string camera; ///< make and model as phones write them; empty where the file does not say
    bool variableRate{};
    double longestGap{};              ///< seconds, real time, between neighbouring frames
    Seconds duration{};               ///< real time from the first frame to the end of the last
    std::vector<std::string> remarks; ///< sentences: what was found and what to beware of
};

/// Decodes single frames of one clip, exactly: `frame(n)` is the picture that decoding the file
/// from its start and counting to n gives, to the byte, in any order of n. Not thread-safe: one
/// thread at a time. FrameSource puts it on a thread of its own.
class ClipReader {
public:
    /// Reads all packet headers of the file (no decoding) and opens the decoder.
    static Outcome<ClipReader> open(const std::filesystem::path& file,
                                    const ClipOptions& options = {});

    ClipReader(ClipReader&&) noexcept;
    ClipReader& operator=(ClipReader&&) noexcept;
    ~ClipReader();

    [[nodiscard]] const ClipFacts& facts() const;
    [[nodiscard]] const FrameIndex& index() const;
    /// Costs one decode when n follows the frame asked for last, else a run from the key frame n
    /// needs.
    Outcome<Frame> frame(FrameNumber n);
    /// The same frame without colour, at less cost.
    Outcome<Shades> shades(FrameNumber n);
    /// Shows them to `look` where the decoder left them, without a copy; no longer there after.
    Outcome<void> lookAtShades(FrameNumber n, const std::function<void(const ShadesView&)>& look);

private:
    struct Inside;
    explicit ClipReader(std::unique_ptr<Inside> inside);
    [[nodiscard]] Outcome<void> hasFrame(FrameNumber n) const;
    std::unique_ptr<Inside> m_inside;
};

} // namespace latemile
