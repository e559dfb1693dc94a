// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>

namespace latemile {

/// Writes pictures as a film: H.264 in MP4, so many a second, no sound, and nothing in the file
/// that tells a place, a device, a person or a day. Until it is finished the film is a file of
/// another name beside it, which goes with an unfinished writer.
class FilmWriter {
public:
    /// `width` and `height` of the pictures, pixels, even and above 0. Errors: no encoder on this
    /// machine, a place that cannot be written to.
    static Outcome<FilmWriter> begin(const std::filesystem::path& file, int width, int height,
                                     int picturesPerSecond);
    FilmWriter(FilmWriter&&) noexcept;
    FilmWriter& operator=(FilmWriter&&) noexcept;
    ~FilmWriter();

    /// The next picture: rows of 32 bits a pixel in memory order B, G, R, X (QImage's
    /// Format_RGB32).
    Outcome<void> add(const std::uint8_t* pixels, std::size_t bytesPerRow);
    /// The whole film under its own name, over an older one. Nothing can be added after it.
    Outcome<void> finish();

private:
    struct Inside;
    explicit FilmWriter(std::unique_ptr<Inside> inside);
    std::unique_ptr<Inside> m_inside;
};

} // namespace latemile
