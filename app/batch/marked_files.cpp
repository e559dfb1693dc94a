// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/marked_files.hpp"

#include "app/batch/session_folder.hpp"
#include "core/clip/clip_reader.hpp"
#include "core/exchange/marks_import.hpp"
#include "core/marks/marks_file.hpp"
#include "core/store/marked_clip.hpp"

namespace latemile::batch {

namespace {

Outcome<AthleteFacts> athleteOf(const MarkedFiles& files)
{
    if (files.athlete.empty()) {
        return AthleteFacts{};
    }
    ASSIGN_OR_RETURN(const auto athlete, readAthlete(files.athlete));
    return factsOf(athlete);
}

Outcome<ClipReader> opened(const MarkedFiles& files, const Scene& scene)
{
    ClipOptions options;
    options.captureRate = scene.captureRate;
    return ClipReader::open(files.clip, options);
}

Outcome<std::map<MarkKey, Mark>> marksIn(const std::filesystem::path& file,
                                         const ClipReader& reader)
{
    return importMarks(file, reader.index(), reader.facts().width, reader.facts().height);
}

} // namespace

Outcome<MarkedClip> markedClipFrom(const MarkedFiles& files)
{
    SessionClip clip;
    clip.file = files.clip.string();
    ASSIGN_OR_RETURN(clip.scene, readScene(files.scene));
    ASSIGN_OR_RETURN(const auto athlete, athleteOf(files));
    ASSIGN_OR_RETURN(const auto reader, opened(files, clip.scene));
    ASSIGN_OR_RETURN(clip.marking.marks, marksIn(files.marks, reader));
    ASSIGN_OR_RETURN(clip.marking.stances, readContacts(files.contacts, reader.index()));
    return markedClipOf(clip, {}, reader.facts(), reader.index(), athlete);
}

Outcome<Marking> otherMarking(const MarkedFiles& files, const std::filesystem::path& marks)
{
    ASSIGN_OR_RETURN(const auto scene, readScene(files.scene));
    ASSIGN_OR_RETURN(const auto reader, opened(files, scene));
    Marking marking;
    ASSIGN_OR_RETURN(marking.marks, marksIn(marks, reader));
    ASSIGN_OR_RETURN(marking.stances, readContacts(files.contacts, reader.index()));
    return marking;
}

} // namespace latemile::batch
