// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/clip_reader.hpp"
#include "core/marks/marking_faults.hpp"
#include "core/store/coaches.hpp"
#include "core/store/linked_film.hpp"
#include "core/store/marked_clip.hpp"
#include "core/store/session.hpp"

namespace latemile {

namespace {

/// What only the opened clip can tell of marks and contacts that were read without it.
Outcome<void> checkAgainst(const ClipReader& reader, const SessionClip& clip,
                           const std::filesystem::path& folder)
{
    const auto at = [&](const MarkingFault& fault) {
        return fail(Error::Kind::Inconsistent, (folder / "session.json").string() + ", clip " +
                                                   clip.file + ", " + std::string(fault.field) +
                                                   ": " + fault.what + ".");
    };
    const auto& facts = reader.facts();
    for (const auto& [key, mark] : clip.marking.marks) {
        if (const auto fault = faultOf(key, mark, reader.index(), facts.width, facts.height)) {
            return at(*fault);
        }
    }
    for (const auto& stance : clip.marking.stances) {
        if (const auto fault = faultOf(stance, reader.index())) {
            return at(*fault);
        }
    }
    return {};
}

} // namespace

Outcome<MarkedClip> markedClipOf(const std::filesystem::path& sessionFolder, const Session& session,
                                 const SessionClip& clip, const AthleteFacts& athlete)
{
    ClipOptions options;
    options.captureRate = clip.scene.captureRate;
    const auto file = sessionFolder / clip.file;
    const auto reader = ClipReader::open(file, options);
    if (!reader) {
        const auto lost = lostFilmSentence(file);
        return lost.empty() ? tl::unexpected(reader.error())
                            : fail(Error::Kind::NotFound, file.string() + ": " + lost);
    }
    RETURN_IF_ERROR(checkAgainst(*reader, clip, sessionFolder));
    ASSIGN_OR_RETURN(const auto coaches, readCoaches(libraryOf(sessionFolder)));
    return markedClipOf(clip, session.date, reader->facts(), reader->index(), athlete,
                        clickErrorsOf(coaches, session.coach));
}

Outcome<Readings> readingsOf(const std::filesystem::path& sessionFolder, const Session& session,
                             const SessionClip& clip, const AthleteFacts& athlete,
                             const OwnMeasures& own)
{
    ASSIGN_OR_RETURN(const auto marked, markedClipOf(sessionFolder, session, clip, athlete));
    return readingsOf(marked, false, own);
}

} // namespace latemile
