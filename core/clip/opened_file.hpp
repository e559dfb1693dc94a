// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/file_bytes.hpp"
#include "core/clip/libav_owners.hpp"
#include "core/outcome.hpp"

#include <optional>
#include <string>
#include <vector>

namespace latemile {

/// A video file with its header read, and the one video stream of it that is used. Only plain
/// containers are accepted: never a play list, which could open other files or addresses.
class OpenedFile {
public:
    /// `videoStream` as in ClipOptions. Errors name the file and what to do.
    static Outcome<OpenedFile> open(const ClipFile& file, std::optional<int> videoStream);

    OpenedFile(OpenedFile&&) noexcept = default;
    OpenedFile& operator=(OpenedFile&& other) noexcept;
    ~OpenedFile() = default;

    [[nodiscard]] AVFormatContext* demuxer() const { return m_demuxer.get(); }
    [[nodiscard]] AVStream* stream() const { return m_demuxer->streams[m_stream]; }
    [[nodiscard]] int streamIndex() const { return m_stream; }
    [[nodiscard]] const ClipFile& file() const { return m_bytes.file(); }
    /// File name alone, in quotes, for sentences.
    [[nodiscard]] std::string name() const { return file().name(); }
    /// Every stream that could be chosen, in words: "0 (h264, 1920x1080)".
    [[nodiscard]] const std::vector<std::string>& videoStreams() const { return m_videoStreams; }
    [[nodiscard]] bool hasSound() const;

private:
    OpenedFile(FileBytes bytes, AvDemuxer demuxer);
    Outcome<void> readHeader();
    Outcome<void> chooseStream(std::optional<int> wanted);

    FileBytes m_bytes;   // read by m_demuxer, which therefore goes first
    AvDemuxer m_demuxer; // its address stays the same when the OpenedFile moves
    int m_stream = -1;
    std::vector<std::string> m_videoStreams;
};

/// The largest picture that is decoded, in pixels; larger ones are refused, since a false header
/// may ask for more memory than there is.
inline constexpr std::int64_t largestPicture = 8192LL * 8192LL;

} // namespace latemile
