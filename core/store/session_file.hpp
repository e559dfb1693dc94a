// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/edit_history.hpp"
#include "core/store/journal.hpp"
#include "core/store/session.hpp"
#include "core/store/session_lock.hpp"

#include <filesystem>
#include <optional>
#include <string>

namespace latemile {

/// Edits a journal holds that its document does not.
struct Recovery {
    Session session;        ///< the document with them
    std::string holds;      ///< in a coach's words: "12 marks and contacts"
    std::size_t unusable{}; ///< later records that build on a damaged one
};

/// One session folder at work: session.json, session.journal beside it, and session.lock.
///
/// keep() and save() take the session as it is now. What keep() was done with survives the end of
/// the program and of the power; save() replaces the document and empties the journal. Used by one
/// thread at a time. Both cost disk time (a few milliseconds and more): not for the window's
/// thread.
class SessionFile {
public:
    /// Where another program has the session open, or the folder cannot be written to, the session
    /// is there to be read. A document that cannot be read is an Error that names file and field.
    static Outcome<SessionFile> open(const std::filesystem::path& folder, const LockOwner& owner,
                                     FileSystem& files = disk());
    /// A session that has no document yet; it begins with the first keep() or save().
    static Outcome<SessionFile> begin(const std::filesystem::path& folder, const LockOwner& owner,
                                      FileSystem& files = disk());
    SessionFile(SessionFile&&) = default;
    SessionFile& operator=(SessionFile&&) = default;
    ~SessionFile();

    [[nodiscard]] const Session& session() const { return m_kept; } ///< as it was read or kept
    [[nodiscard]] bool isWritable() const { return m_lock.has_value(); }
    /// Why it is not, as a sentence; or what was found and set aside. Empty as a rule.
    [[nodiscard]] const std::string& remark() const { return m_remark; }

    /// While there is one, neither keep() nor save() may be called: first recover() or leaveOut().
    [[nodiscard]] const std::optional<Recovery>& recovery() const { return m_recovery; }
    Outcome<void> recover();  ///< the document is saved with the edits
    Outcome<void> leaveOut(); ///< the journal is kept under another name

    Outcome<void> keep(const Session& now);
    /// Says in remark() where the document on disk was not the one read or saved last: somebody
    /// else's version is kept beside it.
    Outcome<void> save(const Session& now);

    /// The edits of earlier runs that can still be undone from session(); after recover() with one
    /// that holds all that was recovered.
    [[nodiscard]] EditHistory history() const;
    /// Of the session as it was saved last.
    Outcome<void> keepHistory(const EditHistory& history);

private:
    SessionFile(std::filesystem::path folder, FileSystem& files);
    [[nodiscard]] std::filesystem::path document() const;
    [[nodiscard]] std::filesystem::path journal() const;
    Outcome<void> readDocument();
    Outcome<void> takeLock(const LockOwner& owner);
    Outcome<void> lookAtJournal();
    [[nodiscard]] bool wasRecoveredBefore(const JournalContent& content) const;
    Outcome<void> setJournalAside(std::string_view why);
    Outcome<void> keepOtherVersion();

    std::filesystem::path m_folder;
    FileSystem* m_files;
    Journal m_journal;
    std::string m_base; ///< SHA-256 of the document's bytes; empty: there is none
    Session m_kept;     ///< what document and journal hold together
    std::optional<Recovery> m_recovery;
    std::string m_remark;
    std::optional<SessionLock> m_lock;
};

/// What the journal of a session folder holds beyond its document; nothing where it holds nothing.
/// `base` is the SHA-256 of the document's bytes, `session` what it says. A journal that belongs to
/// another document is an Error of kind Inconsistent.
Outcome<std::optional<Recovery>> recoveryFrom(const JournalContent& content, const Session& session,
                                              std::string_view base);

} // namespace latemile
