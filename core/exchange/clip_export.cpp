// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/clip_export.hpp"

#include "core/exchange/c3d.hpp"
#include "core/exchange/coco.hpp"
#include "core/exchange/contacts_vtt.hpp"
#include "core/exchange/data_dictionary.hpp"
#include "core/exchange/trc.hpp"
#include "core/json_file.hpp"
#include "core/marks/marks_file.hpp"
#include "core/measures/prepared_clip.hpp"
#include "core/measures/readings_file.hpp"
#include "core/whole_file.hpp"

namespace latemile {

namespace {

FilmClock wholeClip(const ClipFacts& facts)
{
    return steadyClock(Seconds{0.0}, facts.slowMotion, facts.duration * facts.slowMotion);
}

/// What the file of such an ending cannot hold is said, and the others go out all the same.
void addIfItFits(ClipExport& made, const std::string& name, Outcome<std::string> bytes)
{
    if (bytes) {
        made.files.push_back({name, *std::move(bytes)});
    } else {
        made.leftOut.push_back(name + " is not written: " + bytes.error().sentence);
    }
}

} // namespace

Outcome<ClipExport> exportOf(const MarkedClip& clip, const ClipFacts& facts,
                             const Readings& readings, const std::string& stem)
{
    ASSIGN_OR_RETURN(const auto prepared, prepare(clip));
    const auto& marking = clip.marking;
    const auto clipName = std::filesystem::path(clip.conditions.file).filename().string();
    ClipExport made;
    const auto add = [&](const char* ending, std::string bytes) {
        made.files.push_back({stem + ending, std::move(bytes)});
    };
    add("-marks.csv", marksText(marking.marks, clip.index));
    add("-contacts.csv", contactsText(marking.stances));
    add("-scene.json", jsonText(toJson(clip.conditions.scene)));
    add("-readings.csv", readingsCsv(readings));
    add("-keypoints.json",
        jsonText(cocoKeypoints(marking, clip.index, {clipName, facts.width, facts.height})));
    add("-contacts.vtt", contactsVtt(marking.stances, wholeClip(facts)));
    addIfItFits(made, stem + "-points.trc", trcText(prepared, marking, stem + "-points.trc"));
    addIfItFits(made, stem + "-points.c3d", c3dBytes(prepared, marking));
    made.files.push_back({"dictionary.csv", dataDictionary(readings.own)});
    return made;
}

Outcome<void> writeExport(const ClipExport& made, const std::filesystem::path& folder)
{
    RETURN_IF_ERROR(makeFolders(folder));
    for (const auto& file : made.files) {
        RETURN_IF_ERROR(replaceFile(folder / file.name, file.bytes));
    }
    return {};
}

} // namespace latemile
