// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/file_system.hpp"
#include "core/outcome.hpp"

#include <nlohmann/json.hpp>

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace latemile {

/// What a journal holds. A record is a line: its CRC-32 in eight figures, its number, its JSON. The
/// first names the document the edits start from, by the SHA-256 of its bytes.
struct JournalContent {
    std::string base;                    ///< empty: there was no document yet
    std::vector<nlohmann::json> records; ///< after the first, as far as they are whole and in order
    /// Whole records after the first damaged one: they cannot be used, since they build on it.
    std::size_t unusable{};
    /// A last record that was not written to its end: nobody was told that it was saved.
    bool tornTail{};
    [[nodiscard]] bool isEmpty() const { return records.empty() && unusable == 0; }
};
[[nodiscard]] JournalContent journalFrom(std::string_view bytes);

/// Writes a journal beside a document. What append() was done with lasts, whatever happens to
/// program and power. Used by one thread at a time; the file is there from the first record on.
class Journal {
public:
    Journal(std::filesystem::path file, FileSystem& files);

    /// `base` is written where this is the first record. After a failure the record is not in the
    /// journal, and the next one may be tried.
    Outcome<void> append(const nlohmann::json& record, std::string_view base);
    /// All is in the document now.
    Outcome<void> empty();
    [[nodiscard]] bool isEmpty() const { return m_whole == 0; }
    /// Removes the file where it is empty.
    void leave();

private:
    Called<void> write(std::string_view lines);

    std::filesystem::path m_file;
    FileSystem* m_files;
    std::optional<OpenFile> m_open;
    std::int64_t m_whole{};  ///< bytes up to the end of the last whole record
    bool m_ragged{};         ///< there may be more than that in the file
    std::int64_t m_number{}; ///< of the next record
};

} // namespace latemile
