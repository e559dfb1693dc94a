// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/file_system.hpp"
#include "core/outcome.hpp"

#include <filesystem>
#include <memory>

namespace latemile {

/// A large file on its way: written piece by piece under another name in its folder, its owner's
/// alone (0600), and under its own name only once it is whole. Goes with this owner until then.
class NewFile {
public:
    /// A place that cannot be written to is an Error that names `file`.
    static Outcome<NewFile> begin(const std::filesystem::path& file);
    NewFile(NewFile&&) noexcept;
    NewFile& operator=(NewFile&&) noexcept;
    ~NewFile();

    [[nodiscard]] int descriptor() const;
    /// Synced, closed and renamed, over an older one; nothing can be written after it.
    Outcome<void> settle();

private:
    struct Inside;
    explicit NewFile(std::unique_ptr<Inside> inside);
    std::unique_ptr<Inside> m_inside;
};

} // namespace latemile
