// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace latemile::tests {

/// The unit in which a disk fills up, bytes.
inline constexpr std::size_t pageBytes = 4096;

/// Something that writes one file.
struct FileWork {
    std::string name;               ///< of the file below the disk's folder
    std::optional<std::string> old; ///< what stands under that name before
    /// Gives nothing where it says that it is done, else its sentence.
    std::function<std::optional<std::string>(const std::filesystem::path& folder)> write;
};

/// What there is when it has ended.
struct Written {
    std::optional<std::string> refusal; ///< nothing: it said that it is done
    std::optional<std::string> bytes;   ///< under the file's name; nothing: no such file
    std::vector<std::string> others;    ///< every other file on the disk
};

/// Whether this machine lets a test mount a disk of its own. Where not, a limit on the size of
/// files stands for it, by which a write ends as on a full disk: short, then with an error.
[[nodiscard]] bool disksCanBeMounted();

/// Does the work in a process of its own on a disk (tmpfs) with so much room beside what stands
/// there before, which goes with the process; nothing where the process did not come to its end.
[[nodiscard]] std::optional<Written> writtenWithin(std::size_t pages, const FileWork& work);

} // namespace latemile::tests
