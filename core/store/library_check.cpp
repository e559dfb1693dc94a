// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/library_check.hpp"

#include "core/document_schema.hpp"
#include "core/files/checksum.hpp"
#include "core/json_file.hpp"
#include "core/store/clip_sums.hpp"
#include "core/store/coaches.hpp"
#include "core/store/document_fields.hpp"
#include "core/store/library_measures.hpp"
#include "core/store/linked_film.hpp"
#include "core/store/session_file.hpp"
#include "core/store/session_json.hpp"
#include "core/whole_file.hpp"

#include <algorithm>
#include <cerrno>
#include <functional>

namespace latemile {

namespace {

using Path = std::filesystem::path;
using State = Finding::State;

/// Why a text is no such document; empty where it is one.
using FaultOf = std::function<std::string(const std::string& text, const std::string& name)>;

class Checker {
public:
    Checker(Path library, const CheckWish& wish, FileSystem& files)
        : m_library(std::move(library)), m_wish(wish), m_files(files)
    {
    }
    Outcome<LibraryCheck> check();

private:
    void tell(const Path& file, State state, std::string sentence)
    {
        m_check.findings.push_back(
            {file.lexically_relative(m_library), state, std::move(sentence)});
    }
    [[nodiscard]] bool has(const Path& file) const { return m_files.facts(file).has_value(); }
    [[nodiscard]] bool hasDocument(const Path& file) const
    {
        return has(file) || has(previousGenerationOf(file));
    }
    [[nodiscard]] static FaultOf faultsOf(const char* schema,
                                          std::function<Outcome<void>(const JsonField&)> read);
    void checkDocument(const Path& file, const FaultOf& faultOf);
    void restore(const Path& file, const std::string& fault, const FaultOf& faultOf);
    Outcome<void> putBack(const Path& file, const std::string& text);
    void checkOfLibrary();
    void checkAthlete(const Path& folder, const std::vector<Path>& entries);
    void noteConsent(const Path& folder);
    void checkSession(const Path& folder);
    void checkJournal(const Path& folder);
    [[nodiscard]] Outcome<std::optional<Recovery>> heldBy(const Path& folder) const;
    [[nodiscard]] static std::string wordsFor(const Recovery& recovery);
    void takeOver(const Path& folder, const std::string& words);
    void checkClips(const Path& folder, const Session& session);
    void checkClip(const Path& clip, const ClipSums& sums);
    void tellWrongFilm(const Path& clip, const std::string& sentence);
    void noteLeftovers(const std::vector<Path>& entries);

    const Path m_library;
    const CheckWish& m_wish;
    FileSystem& m_files;
    LibraryCheck m_check;
};

FaultOf Checker::faultsOf(const char* schema, std::function<Outcome<void>(const JsonField&)> read)
{
    return [schema, read = std::move(read)](const std::string& text, const std::string& name) {
        const auto document = parseJson(text, name);
        if (!document) {
            return document.error().sentence;
        }
        const JsonField root(*document, name);
        auto done = read(root);
        if (done) {
            done = needSchema(root, schema);
        }
        return done ? std::string() : done.error().sentence;
    };
}

void Checker::checkDocument(const Path& file, const FaultOf& faultOf)
{
    ++m_check.documents;
    const auto text = readWholeFile(file, m_files);
    const auto fault = text ? faultOf(*text, file.filename().string()) : text.error().sentence;
    if (!fault.empty()) {
        restore(file, fault, faultOf);
    }
}

void Checker::restore(const Path& file, const std::string& fault, const FaultOf& faultOf)
{
    const auto previous = previousGenerationOf(file);
    const auto text = readWholeFile(previous, m_files);
    if (!text || !faultOf(*text, previous.filename().string()).empty()) {
        tell(file, State::Bad, fault + " There is no whole previous generation of it.");
        return;
    }
    if (!m_wish.repair) {
        tell(file, State::Bad,
             fault + " Its previous generation is whole: check --repair puts that back.");
        return;
    }
    const auto done = putBack(file, *text);
    tell(file, done ? State::Repaired : State::Bad,
         done ? fault + " Its previous generation was put back." : done.error().sentence);
}

Outcome<void> Checker::putBack(const Path& file, const std::string& text)
{
    if (has(file)) {
        const auto aside = freeNameBeside(file, "damaged", m_files);
        if (const auto moved = m_files.rename(file, aside); !moved) {
            return writeFault(file, moved.error());
        }
        tell(aside, State::Note, "This is the damaged document, as it was.");
    }
    return replaceFile(file, text, m_files);
}

void Checker::noteLeftovers(const std::vector<Path>& entries)
{
    for (const Path& entry : entries) {
        const auto name = entry.filename().string();
        if (name.starts_with(".session.json.") || name.starts_with(".session.edits.") ||
            name.starts_with(".athlete.json.") || name.starts_with(".coaches.json.") ||
            name.starts_with(".own_measures.json.")) {
            tell(entry, State::Note, "An interrupted save left this; it may be removed.");
        }
    }
}

Outcome<LibraryCheck> Checker::check()
{
    const auto athletes = m_files.list(m_library);
    if (!athletes) {
        return readFault(m_library, athletes.error());
    }
    checkOfLibrary();
    noteLeftovers(*athletes);
    for (const Path& folder : *athletes) {
        if (const auto entries = m_files.list(folder); entries) {
            checkAthlete(folder, *entries);
        } else if (entries.error() != ENOTDIR) {
            tell(folder, State::Bad, readFault(folder, entries.error()).value().sentence);
        }
    }
    return m_check;
}

/// The documents that all athletes share.
void Checker::checkOfLibrary()
{
    const auto coaches = m_library / "coaches.json";
    if (hasDocument(coaches)) {
        checkDocument(coaches, faultsOf("coaches", [this](const JsonField&) -> Outcome<void> {
                          ASSIGN_OR_RETURN(const auto read, readCoaches(m_library));
                          (void)read;
                          return {};
                      }));
    }
    const auto own = m_library / "own_measures.json";
    if (hasDocument(own)) {
        checkDocument(own, faultsOf("own_measures", [](const JsonField& document) -> Outcome<void> {
                          RETURN_IF_ERROR(needVersion(document, storeVersion));
                          ASSIGN_OR_RETURN(const auto measures, document.member("measures"));
                          ASSIGN_OR_RETURN(const auto read, ownMeasuresFrom(measures));
                          (void)read;
                          return {};
                      }));
    }
}

void Checker::checkAthlete(const Path& folder, const std::vector<Path>& entries)
{
    const auto athlete = folder / "athlete.json";
    if (hasDocument(athlete)) {
        checkDocument(athlete, faultsOf("athlete", [](const JsonField& document) -> Outcome<void> {
                          ASSIGN_OR_RETURN(const auto read, athleteFrom(document));
                          (void)read;
                          return {};
                      }));
    }
    noteConsent(folder);
    noteLeftovers(entries);
    for (const Path& entry : entries) {
        if (hasDocument(entry / "session.json") || has(entry / "session.journal")) {
            checkSession(entry);
        }
    }
}

void Checker::noteConsent(const Path& folder)
{
    const auto athlete = readAthlete(folder / "athlete.json");
    const auto until = athlete && athlete->consent ? athlete->consent->until : std::string();
    if (!until.empty() && until < m_wish.today) {
        tell(folder / "athlete.json", State::Note,
             "The consent ended on " + until +
                 ", and pictures are still kept: ask again, or delete the athlete.");
    }
}

void Checker::checkSession(const Path& folder)
{
    const auto file = folder / "session.json";
    if (hasDocument(file)) {
        checkDocument(file, faultsOf("session", [](const JsonField& document) -> Outcome<void> {
                          ASSIGN_OR_RETURN(const auto read, sessionFrom(document));
                          (void)read;
                          return {};
                      }));
    }
    if (has(folder / "session.journal")) {
        checkJournal(folder);
    }
    if (const auto entries = m_files.list(folder); entries) {
        noteLeftovers(*entries);
    }
    if (const auto session = readSession(folder); session) {
        checkClips(folder, *session);
    }
}

/// Only looks: nothing is moved, not even a journal that is done with.
Outcome<std::optional<Recovery>> Checker::heldBy(const Path& folder) const
{
    ASSIGN_OR_RETURN(const auto bytes, readWholeFile(folder / "session.journal", m_files));
    const auto text = readWholeFile(folder / "session.json", m_files);
    if (!text && text.error().kind == Error::Kind::NotFound) {
        return recoveryFrom(journalFrom(bytes), {}, "");
    }
    ASSIGN_OR_RETURN(const auto session, readSession(folder));
    return recoveryFrom(journalFrom(bytes), session, text ? sha256Of(*text) : "");
}

std::string Checker::wordsFor(const Recovery& recovery)
{
    std::string words = recovery.holds.empty()
                            ? "No edit of it can be used."
                            : "It holds edits that session.json does not: " + recovery.holds + ".";
    if (recovery.unusable > 0) {
        words += " " + std::to_string(recovery.unusable) +
                 " later records build on a damaged one and cannot be used.";
    }
    return words;
}

void Checker::checkJournal(const Path& folder)
{
    ++m_check.journals;
    const auto journal = folder / "session.journal";
    if (const auto taking = SessionLock::take(folder, ownerHere("a check"), m_files);
        taking && !taking->lock) {
        tell(journal, State::Note, "Not looked at: the session is open at " + taking->heldBy + ".");
        return;
    }
    const auto held = heldBy(folder);
    if (!held) {
        tell(journal, State::Bad, held.error().sentence);
    } else if (*held && !m_wish.repair) {
        tell(journal, State::Bad,
             wordsFor(**held) +
                 " Open the session in Latemile, or let check --repair take them over.");
    } else if (*held) {
        takeOver(folder, wordsFor(**held));
    }
}

void Checker::takeOver(const Path& folder, const std::string& words)
{
    const auto journal = folder / "session.journal";
    auto opened = SessionFile::open(folder, ownerHere("a check"), m_files);
    const auto done = !opened              ? Outcome<void>(tl::unexpected(opened.error()))
                      : opened->recovery() ? opened->recover()
                                           : Outcome<void>();
    tell(journal, done ? State::Repaired : State::Bad,
         done ? words + " What can be used was taken over." : done.error().sentence);
}

void Checker::checkClips(const Path& folder, const Session& session)
{
    const auto sums = readClipSums(folder / "clips", m_files);
    if (!sums) {
        tell(folder / "clips" / "SHA256SUMS", State::Bad, sums.error().sentence);
        return;
    }
    for (const SessionClip& clip : session.clips) {
        checkClip(folder / clip.file, *sums);
    }
}

void Checker::checkClip(const Path& clip, const ClipSums& sums)
{
    ++m_check.clips;
    const auto now = sha256OfFile(clip, m_files);
    const auto known = sums.find(clip.filename().string());
    m_check.clipsWithSums += known != sums.end() ? 1 : 0;
    if (!now) {
        const auto lost = lostFilmSentence(clip);
        tellWrongFilm(clip, lost.empty() ? now.error().sentence : lost);
    } else if (known == sums.end()) {
        const auto done = m_wish.repair ? recordClipSum(clip, m_files) : Outcome<void>();
        tell(clip, m_wish.repair ? (done ? State::Repaired : State::Bad) : State::Note,
             !m_wish.repair ? "No checksum of this clip was written down."
             : done         ? "Its checksum as it is now was written down."
                            : done.error().sentence);
    } else if (*now != known->second) {
        tellWrongFilm(clip, "This is not the clip that came in: its checksum is another. Put the "
                            "original back from the camera or a backup.");
    }
}

/// A linked film may have moved: what has its checksum is it, whatever its name.
void Checker::tellWrongFilm(const Path& clip, const std::string& sentence)
{
    if (!m_wish.repair || m_wish.films.empty() || !linkedFilmOf(clip)) {
        tell(clip, State::Bad, sentence);
        return;
    }
    const auto found = findAgain(clip, m_wish.films);
    tell(clip, found ? State::Repaired : State::Bad,
         found ? "The film was found and linked again: " + found->string() + "."
               : found.error().sentence);
}

} // namespace

std::string_view nameOf(Finding::State state)
{
    switch (state) {
    case State::Bad:
        return "bad";
    case State::Repaired:
        return "repaired";
    case State::Note:
        break;
    }
    return "note";
}

bool LibraryCheck::isSound() const
{
    return std::ranges::none_of(findings,
                                [](const Finding& finding) { return finding.state == State::Bad; });
}

nlohmann::json toJson(const LibraryCheck& check)
{
    auto findings = nlohmann::json::array();
    for (const auto& finding : check.findings) {
        findings.push_back({{"file", finding.file.string()},
                            {"state", nameOf(finding.state)},
                            {"sentence", finding.sentence}});
    }
    return {{"version", 1},
            {"sound", check.isSound()},
            {"documents", check.documents},
            {"journals", check.journals},
            {"clips", check.clips},
            {"clips_with_sums", check.clipsWithSums},
            {"findings", std::move(findings)}};
}

Outcome<LibraryCheck> checkLibrary(const std::filesystem::path& library, const CheckWish& wish,
                                   FileSystem& files)
{
    return Checker(library, wish, files).check();
}

} // namespace latemile
