// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/file_system.hpp"
#include "core/outcome.hpp"

#include <filesystem>
#include <optional>

namespace latemile {

/// Documents that several windows share (athlete.json, coaches.json, own_measures.json) are read,
/// changed and written within one turn, so that no writer misses what another wrote in between. The
/// turn is a lock of the system on the document's folder; it ends with its owner or its program.
class WritersTurn {
public:
    /// Waits for others, at most three seconds: then an Error. A disk that locks no folders gives a
    /// turn all the same, which then keeps nobody off.
    static Outcome<WritersTurn> take(const std::filesystem::path& folder,
                                     FileSystem& files = disk());

private:
    explicit WritersTurn(std::optional<OpenFile> lock) : m_lock(std::move(lock)) {}
    std::optional<OpenFile> m_lock;
};

} // namespace latemile
