// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/session_file.hpp"

#include "core/document_schema.hpp"
#include "core/files/checksum.hpp"
#include "core/store/session_changes.hpp"
#include "core/store/session_json.hpp"
#include "core/whole_file.hpp"

#include <cassert>
#include <cerrno>
#include <utility>

namespace latemile {

namespace {

constexpr const char* savingKey = "saving"; ///< the document about to be written, by its SHA-256

bool isSaving(const nlohmann::json& record)
{
    return record.is_object() && record.contains(savingKey);
}

/// The record from which on a journal goes beyond the document; nothing where they do not belong
/// together.
std::optional<std::size_t> beyond(const JournalContent& content, std::string_view base)
{
    for (std::size_t i = content.records.size(); i > 0; --i) {
        if (isSaving(content.records[i - 1]) && content.records[i - 1][savingKey] == base) {
            return i;
        }
    }
    return content.base == base ? std::optional<std::size_t>(0) : std::nullopt;
}

} // namespace

Outcome<std::optional<Recovery>> recoveryFrom(const JournalContent& content, const Session& session,
                                              std::string_view base)
{
    if (content.isEmpty()) {
        return std::nullopt;
    }
    const auto from = beyond(content, base);
    if (!from) {
        return fail(Error::Kind::Inconsistent,
                    "The journal beside session.json belongs to another version of it.");
    }
    Recovery recovery{.session = session, .holds = {}, .unusable = content.unusable};
    for (std::size_t i = *from; i < content.records.size(); ++i) {
        if (isSaving(content.records[i])) {
            continue;
        }
        auto next = withChanges(recovery.session, JsonField(content.records[i], "the journal"));
        if (!next) {
            recovery.unusable += content.records.size() - i;
            break;
        }
        recovery.session = std::move(*next);
    }
    recovery.holds = wordsForChanges(session, recovery.session);
    const bool nothing = recovery.holds.empty() && recovery.unusable == 0;
    return nothing ? std::optional<Recovery>() : std::optional(std::move(recovery));
}

SessionFile::SessionFile(std::filesystem::path folder, FileSystem& files)
    : m_folder(std::move(folder)), m_files(&files), m_journal(journal(), files)
{
}

SessionFile::~SessionFile()
{
    m_journal.leave();
}

std::filesystem::path SessionFile::document() const
{
    return m_folder / "session.json";
}

std::filesystem::path SessionFile::journal() const
{
    return m_folder / "session.journal";
}

Outcome<SessionFile> SessionFile::open(const std::filesystem::path& folder, const LockOwner& owner,
                                       FileSystem& files)
{
    SessionFile file(folder, files);
    // A misspelt folder is told by the document that is not there, not by the lock.
    if (!files.facts(file.document()) && !files.facts(file.journal())) {
        return readFault(file.document(), ENOENT);
    }
    RETURN_IF_ERROR(file.takeLock(owner));
    RETURN_IF_ERROR(file.readDocument());
    if (file.isWritable()) {
        RETURN_IF_ERROR(file.lookAtJournal());
    }
    if (file.m_base.empty() && !file.m_recovery) {
        return readFault(file.document(), ENOENT);
    }
    return file;
}

Outcome<SessionFile> SessionFile::begin(const std::filesystem::path& folder, const LockOwner& owner,
                                        FileSystem& files)
{
    SessionFile file(folder, files);
    RETURN_IF_ERROR(file.takeLock(owner));
    if (files.facts(file.document()) || files.facts(file.journal())) {
        return fail(Error::Kind::Inconsistent,
                    "There is a session in " + folder.string() + " already: open that one.");
    }
    return file;
}

Outcome<void> SessionFile::takeLock(const LockOwner& owner)
{
    auto taking = SessionLock::take(m_folder, owner, *m_files);
    if (!taking) {
        m_remark = "This session can be looked at but not changed: " + taking.error().sentence;
    } else if (!taking->lock) {
        m_remark = "This session is open at " + taking->heldBy +
                   ": here it can be looked at but not changed.";
    } else {
        m_lock = std::move(*taking->lock);
    }
    return {};
}

Outcome<void> SessionFile::readDocument()
{
    const auto text = readWholeFile(document(), *m_files);
    if (!text && text.error().kind == Error::Kind::NotFound) {
        return {}; // never saved: the journal holds all there is
    }
    if (!text) {
        return tl::unexpected(text.error());
    }
    ASSIGN_OR_RETURN(const auto parsed, parseJson(*text, document().string()));
    const JsonField root(parsed, document().string());
    ASSIGN_OR_RETURN(m_kept, sessionFrom(root));
    RETURN_IF_ERROR(needSchema(root, "session"));
    m_base = sha256Of(*text);
    return {};
}

Outcome<void> SessionFile::lookAtJournal()
{
    const auto bytes = readWholeFile(journal(), *m_files);
    if (!bytes && bytes.error().kind == Error::Kind::NotFound) {
        return {};
    }
    if (!bytes) {
        return tl::unexpected(bytes.error());
    }
    const auto content = journalFrom(*bytes);
    auto recovery = recoveryFrom(content, m_kept, m_base);
    if (!recovery && m_base.empty()) {
        return readFault(document(), ENOENT); // it goes with a document that is gone
    }
    if (!recovery && !wasRecoveredBefore(content)) {
        return setJournalAside("unmatched");
    }
    m_recovery = recovery ? std::move(*recovery) : std::nullopt;
    // What the document holds already needs no journal any more.
    if (!m_recovery) {
        const auto removed = m_files->remove(journal());
        return removed ? Outcome<void>() : writeFault(journal(), removed.error());
    }
    return {};
}

/// The program may have ended after saving the recovered document and before removing the journal:
/// then the journal makes this document out of the previous generation.
bool SessionFile::wasRecoveredBefore(const JournalContent& content) const
{
    const auto previous = previousGenerationOf(document());
    const auto text = readWholeFile(previous, *m_files);
    const auto parsed = text ? parseJson(*text, previous.string()) : parseJson("", "");
    if (!parsed) {
        return false;
    }
    const auto session = sessionFrom(JsonField(*parsed, previous.string()));
    if (!session) {
        return false;
    }
    const auto recovery = recoveryFrom(content, *session, sha256Of(*text));
    return recovery && *recovery && (*recovery)->unusable == 0 && (*recovery)->session == m_kept;
}

Outcome<void> SessionFile::setJournalAside(std::string_view why)
{
    const auto aside = freeNameBeside(journal(), why, *m_files);
    const auto moved = m_files->rename(journal(), aside).and_then([this] {
        return syncFolder(*m_files, m_folder);
    });
    if (!moved) {
        return writeFault(journal(), moved.error());
    }
    m_remark = "Edits that belong to another version of this session are kept in " +
               aside.filename().string() + ".";
    return {};
}

Outcome<void> SessionFile::recover()
{
    assert(m_recovery);
    auto history = this->history();
    history.edits.resize(history.done);
    history.edits.push_back(editBetween("recovered edits", m_kept, m_recovery->session));
    history.done = history.edits.size();
    const auto text = jsonText(toJson(m_recovery->session));
    RETURN_IF_ERROR(replaceDocument(document(), text, *m_files));
    m_base = sha256Of(text);
    m_kept = m_recovery->session;
    (void)keepHistory(history); // without it they are no less safe, only not to be undone
    if (m_recovery->unusable > 0) {
        RETURN_IF_ERROR(setJournalAside("damaged"));
        m_remark = "A part of the journal was damaged: it is kept beside the session.";
    } else if (const auto removed = m_files->remove(journal()); !removed) {
        return writeFault(journal(), removed.error());
    }
    m_recovery.reset();
    return {};
}

EditHistory SessionFile::history() const
{
    return editHistoryOf(m_kept, m_base, m_folder, *m_files);
}

Outcome<void> SessionFile::keepHistory(const EditHistory& history)
{
    return keepEditHistory(history, m_base, m_folder, *m_files);
}

Outcome<void> SessionFile::leaveOut()
{
    assert(m_recovery);
    RETURN_IF_ERROR(setJournalAside("left-out"));
    m_remark.clear();
    m_recovery.reset();
    return {};
}

Outcome<void> SessionFile::keep(const Session& now)
{
    assert(isWritable() && !m_recovery);
    const bool first = m_base.empty() && m_journal.isEmpty();
    const auto changes = first ? wholeChange(now) : changesBetween(m_kept, now);
    if (changes.is_null()) {
        return {};
    }
    RETURN_IF_ERROR(m_journal.append(changes, m_base));
    m_kept = now;
    return {};
}

Outcome<void> SessionFile::keepOtherVersion()
{
    const auto there = readWholeFile(document(), *m_files);
    if (!there && there.error().kind != Error::Kind::NotFound) {
        return tl::unexpected(there.error());
    }
    if (!there || sha256Of(*there) == m_base) {
        return {};
    }
    const auto aside = freeNameBeside(document(), "other", *m_files);
    RETURN_IF_ERROR(replaceDocument(aside, *there, *m_files));
    m_remark = "session.json was changed outside this window: that version is kept as " +
               aside.filename().string() + " beside it.";
    return {};
}

Outcome<void> SessionFile::save(const Session& now)
{
    assert(isWritable() && !m_recovery);
    RETURN_IF_ERROR(keepOtherVersion());
    const auto text = jsonText(toJson(now));
    const auto sum = sha256Of(text);
    // Should the program end between here and the emptying, the journal says by itself that this
    // document holds its edits. Where the journal cannot be written to, the document may be.
    if (keep(now) && !m_journal.isEmpty()) {
        (void)m_journal.append({{savingKey, sum}}, m_base);
    }
    const auto saved = replaceDocument(document(), text, *m_files);
    if (!saved) {
        // It may be there all the same, only not surely for good: then it is ours, not another's.
        if (const auto there = readWholeFile(document(), *m_files); there && *there == text) {
            m_base = sum;
        }
        return saved;
    }
    m_base = sum;
    m_kept = now;
    // A journal that cannot be emptied goes on behind the record just written.
    (void)m_journal.empty();
    return {};
}

} // namespace latemile
