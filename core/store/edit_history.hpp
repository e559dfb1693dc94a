// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/file_system.hpp"
#include "core/outcome.hpp"
#include "core/store/session.hpp"

#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace latemile {

/// One edit of a session, as it can be taken back and done again after the program was closed. Both
/// changes are those of session_changes, as JSON text; empty: nothing of the session changed.
struct PastEdit {
    std::string name; ///< as the coach reads it: "move knee, step 3 contact"
    std::string forward;
    std::string back;
    bool operator==(const PastEdit&) const = default;
};

/// The edits of a session in their order; the first `done` of them are in the document, the others
/// were taken back.
struct EditHistory {
    std::vector<PastEdit> edits;
    std::size_t done{};
    bool operator==(const EditHistory&) const = default;
};

/// What turns `before` into `now` and back.
[[nodiscard]] PastEdit editBetween(std::string name, const Session& before, const Session& now);
/// The session after one of the changes of a PastEdit.
Outcome<Session> withEdit(Session session, std::string_view changes);

inline constexpr std::size_t mostKeptEdits = 500;
inline constexpr std::size_t mostKeptBytes = std::size_t{8} << 20;
[[nodiscard]] std::size_t bytesIn(const PastEdit& edit);

/// Keeps the newest edits (mostKeptEdits, or mostKeptBytes of them) as session.edits beside the
/// document whose bytes have the SHA-256 `base`. Nothing depends on that file: without it nothing
/// can be undone that was done before the session was opened.
Outcome<void> keepEditHistory(const EditHistory& history, std::string_view base,
                              const std::filesystem::path& sessionFolder,
                              FileSystem& files = disk());
/// What can still be undone and done again from `session`, as read from the document with the
/// SHA-256 `base`. Empty where nothing was kept, or it belongs to another version of the document;
/// of a damaged file what leads up to the damage.
[[nodiscard]] EditHistory editHistoryOf(const Session& session, std::string_view base,
                                        const std::filesystem::path& sessionFolder,
                                        FileSystem& files = disk());

} // namespace latemile
