// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/libav_owners.hpp"
#include "core/outcome.hpp"

#include <chrono>
#include <filesystem>
#include <memory>

namespace latemile {

/// The bytes of one regular file, as libav reads them. We open the descriptor ourselves: libav
/// takes names for addresses, so that a file called "http:..." would be fetched from the network.
class FileBytes {
public:
    /// Errors: no such file, a folder, no regular file, empty, no permission; one sentence each.
    static Outcome<FileBytes> open(const std::filesystem::path& file);

    FileBytes(FileBytes&&) noexcept;
    FileBytes& operator=(FileBytes&&) noexcept;
    ~FileBytes();

    /// Stays owned here; must outlive the demuxer that reads from it.
    [[nodiscard]] AVIOContext* context() const;
    [[nodiscard]] std::int64_t size() const;
    /// From then on reads end, so that no file can hold the program up for ever.
    void setDeadline(std::chrono::steady_clock::time_point deadline);
    void clearDeadline();

private:
    struct Inside;
    explicit FileBytes(std::unique_ptr<Inside> inside);
    std::unique_ptr<Inside> m_inside;
};

} // namespace latemile
