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

Outcome<SheetClip> readSheetClip(const std::filesystem::path& folder, const Session& session,
                                 std::string_view condition, const AthleteFacts& athlete,
                                 const OwnMeasures& own)
{
    const SessionClip* clip = findClip(session, condition);
    if (!clip) {
        return fail(Error::Kind::NotFound, "The session of " + session.date + " has no " +
                                               std::string(condition) +
                                               " clip from the side; a sheet compares a fresh "
                                               "with a fatigued one.");
    }
    const auto file = folder / clip->file;
    ClipOptions options;
    options.captureRate = clip->scene.captureRate;
    ASSIGN_OR_RETURN(const auto reader, ClipReader::open(file, options));
    ASSIGN_OR_RETURN(auto readings, readingsOf(folder, session, *clip, athlete, own));
    return SheetClip{file, *clip, reader.index(), std::move(readings)};
}

} // namespace

Outcome<SheetContent> sheetContent(const std::filesystem::path& sessionFolder,
                                   const Session& session, const Athlete& athlete,
                                   const std::vector<Cue>& cues, const SheetChoice& choice)
{
    const AthleteFacts facts = factsOf(athlete);
    ASSIGN_OR_RETURN(const auto own, ownMeasuresIn(libraryOf(sessionFolder)));
    ASSIGN_OR_RETURN(const auto fresh, readSheetClip(sessionFolder, session, "fresh", facts, own));
    ASSIGN_OR_RETURN(const auto fatigued,
                     readSheetClip(sessionFolder, session, "fatigued", facts, own));
    return sheetContent(fresh, fatigued, session, athlete, cues, choice);
}

} // namespace latemile
