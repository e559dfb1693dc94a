// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/clip_reader.hpp"
#include "core/sheet/sheet_content.hpp"
#include "core/store/coaches.hpp"
#include "core/store/library_measures.hpp"

namespace latemile {
namespace {

AthleteFacts factsOf(const Athlete& athlete)
{
    return {athlete.name, athlete.heightCm, athlete.legLengthCm, athlete.massKg};
}

} // namespace

Outcome<SheetClip> sheetClipOf(const std::filesystem::path& folder, const Session& session,
                               std::string_view condition, const AthleteFacts& athlete,
                               const OwnMeasures& own)
{
    const SessionClip* clip = findClip(session, condition);
    if (!clip) {
        return fail(Error::Kind::NotFound, "The session of " + session.date + " has no " +
                                               std::string(condition) +
                                               " clip from the side: film and mark one first.");
    }
    const auto file = folder / clip->file;
    ClipOptions options;
    options.captureRate = clip->scene.captureRate;
    ASSIGN_OR_RETURN(const auto reader, ClipReader::open(file, options));
    ASSIGN_OR_RETURN(auto readings, readingsOf(folder, session, *clip, athlete, own));
    return SheetClip{file, *clip, reader.index(), std::move(readings)};
}

Outcome<SheetContent> sheetContent(const std::filesystem::path& sessionFolder,
                                   const Session& session, const Athlete& athlete,
                                   const std::vector<Cue>& cues, const SheetChoice& choice)
{
    const AthleteFacts facts = factsOf(athlete);
    ASSIGN_OR_RETURN(const auto own, ownMeasuresIn(libraryOf(sessionFolder)));
    ASSIGN_OR_RETURN(const auto fresh, sheetClipOf(sessionFolder, session, "fresh", facts, own));
    ASSIGN_OR_RETURN(const auto fatigued,
                     sheetClipOf(sessionFolder, session, "fatigued", facts, own));
    return sheetContent(fresh, fatigued, session, athlete, cues, choice);
}

} // namespace latemile
