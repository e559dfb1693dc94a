// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/descriptor.hpp"
#include "core/outcome.hpp"

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <string>

namespace latemile {

/// The file of a clip as an open descriptor, and the name it goes by in sentences: whatever happens
/// to the name meanwhile, the same file is read, also in a process that may open none. Copies share
/// the descriptor.
class ClipFile {
public:
    /// Errors: no such file, a folder, no regular file, empty, no permission; one sentence each.
    static Outcome<ClipFile> open(const std::filesystem::path& file);
    /// Of a regular file that was opened elsewhere.
    ClipFile(Descriptor opened, std::int64_t size, std::filesystem::path path);

    [[nodiscard]] int descriptor() const { return m_descriptor->number(); }
    [[nodiscard]] std::int64_t size() const { return m_size; }
    [[nodiscard]] const std::filesystem::path& path() const { return m_path; }
    /// File name alone, in quotes, for sentences.
    [[nodiscard]] std::string name() const { return "\"" + m_path.filename().string() + "\""; }

    /// How many bytes were read, fewer than `size` only at the end; a negative errno where reading
    /// failed.
    [[nodiscard]] std::int64_t readAt(std::int64_t place, void* into, std::size_t size) const;
    /// Called before each read, on the thread that reads: a sign that work goes on.
    void setOnRead(std::function<void()> onRead) { m_onRead = std::move(onRead); }

private:
    std::shared_ptr<const Descriptor> m_descriptor;
    std::int64_t m_size;
    std::filesystem::path m_path;
    std::function<void()> m_onRead;
};

} // namespace latemile
