// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_file.hpp"
#include "core/clip/libav_owners.hpp"
#include "core/outcome.hpp"

#include <chrono>
#include <memory>

namespace latemile {

/// The bytes of one clip, as libav reads them: from a descriptor of ours, since libav takes names
/// for addresses, so that a file called "http:..." would be fetched from the network. Each has a
/// place of its own in the file.
class FileBytes {
public:
    /// Error: no memory.
    static Outcome<FileBytes> of(const ClipFile& file);

    FileBytes(FileBytes&&) noexcept;
    FileBytes& operator=(FileBytes&&) noexcept;
    ~FileBytes();

    /// Stays owned here; must outlive the demuxer that reads from it.
    [[nodiscard]] AVIOContext* context() const;
    [[nodiscard]] const ClipFile& file() const;
    /// From then on reads end, so that no file can hold the program up for ever.
    void setDeadline(std::chrono::steady_clock::time_point deadline);
    void clearDeadline();

private:
    struct Inside;
    explicit FileBytes(std::unique_ptr<Inside> inside);
    std::unique_ptr<Inside> m_inside;
};

} // namespace latemile
