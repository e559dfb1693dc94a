// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/arguments.hpp"
#include "app/batch/marked_files.hpp"
#include "app/batch/progress.hpp"
#include "app/batch/session_folder.hpp"
#include "app/batch/word.hpp"
#include "core/exchange/clip_export.hpp"
#include "core/json_file.hpp"
#include "core/store/marked_clip.hpp"

namespace latemile::batch {

namespace {

struct Asked {
    std::filesystem::path clip; ///< or the folder of a session
    std::filesystem::path marks;
    std::filesystem::path contacts;
    std::filesystem::path scene;
    std::string condition; ///< not empty: the clip of that condition in a session's folder
    std::filesystem::path into;
    bool json{};
};

/// A marked clip with the file it belongs to.
struct Opened {
    std::filesystem::path file;
    std::string stem; ///< of the names of what is written
    MarkedClip clip;
};

Outcome<Opened> fromFiles(const Asked& asked)
{
    ASSIGN_OR_RETURN(auto clip, markedClipFrom({.clip = asked.clip,
                                                .marks = asked.marks,
                                                .contacts = asked.contacts,
                                                .scene = asked.scene,
                                                .athlete = {}}));
    return Opened{asked.clip, asked.clip.stem().string(), std::move(clip)};
}

Outcome<Opened> fromSession(const Asked& asked)
{
    ASSIGN_OR_RETURN(const auto opened, openSessionFolder(asked.clip));
    const auto* clip = findClip(opened.session, asked.condition);
    if (clip == nullptr) {
        return fail(Error::Kind::NotFound, "The session in " + asked.clip.string() + " has no " +
                                               asked.condition + " clip filmed from a side.");
    }
    ASSIGN_OR_RETURN(auto marked,
                     markedClipOf(asked.clip, opened.session, *clip, factsOf(opened.athlete)));
    return Opened{asked.clip / clip->file, asked.condition, std::move(marked)};
}

Outcome<ClipExport> made(const Opened& opened)
{
    ClipOptions options;
    options.captureRate = opened.clip.conditions.scene.captureRate;
    ASSIGN_OR_RETURN(const auto reader, ClipReader::open(opened.file, options));
    ASSIGN_OR_RETURN(const auto readings, readingsOf(opened.clip));
    return exportOf(opened.clip, reader.facts(), readings, opened.stem);
}

std::string answer(const Asked& asked, const ClipExport& made)
{
    auto names = nlohmann::json::array();
    std::string text = "Written into " + asked.into.string() + ":\n";
    for (const auto& file : made.files) {
        names.push_back(file.name);
        text += "  " + file.name + "\n";
    }
    for (const auto& sentence : made.leftOut) {
        text += sentence + "\n";
    }
    return asked.json ? jsonText({{"version", 1},
                                  {"folder", asked.into.string()},
                                  {"files", names},
                                  {"left_out", made.leftOut}})
                      : text;
}

Outcome<std::string> exportClip(const Asked& asked)
{
    const Progress progress("Exporting from " + asked.clip.string());
    ASSIGN_OR_RETURN(const auto opened,
                     asked.condition.empty() ? fromFiles(asked) : fromSession(asked));
    ASSIGN_OR_RETURN(const auto files, made(opened));
    RETURN_IF_ERROR(writeExport(files, asked.into));
    return answer(asked, files);
}

} // namespace

void addExport(CLI::App& program, Job& job)
{
    auto asked = std::make_shared<Asked>();
    auto* word = program.add_subcommand(
        "export", "All numbers of a marked clip for other programs: tables, COCO keypoints, TRC, "
                  "C3D, WebVTT");
    addPath(*word, "CLIP", asked->clip, "The video file, or with --condition a session's folder");
    auto* condition =
        word->add_option("--condition", asked->condition,
                         "Instead of the files below: which clip of the session's folder")
            ->type_name("")
            ->check(CLI::IsMember({"fresh", "fatigued", "other"}));
    addInput(*word, "--marks", asked->marks, "Landmarks (MARKS.csv or COCO keypoints)")
        ->excludes(condition);
    addInput(*word, "--contacts", asked->contacts, "Contacts and toe-offs (CONTACTS.csv)")
        ->excludes(condition);
    addInput(*word, "--scene", asked->scene, "Scale, plumb line, belt speed (SCENE.json)")
        ->excludes(condition);
    addInput(*word, "--into", asked->into, "The folder to write into, made where there is none")
        ->required();
    addJson(*word, asked->json);
    word->callback([asked, &job] {
        const bool whole =
            !asked->marks.empty() && !asked->contacts.empty() && !asked->scene.empty();
        if (!whole && asked->condition.empty()) {
            throw CLI::RequiredError("export: --marks, --contacts and --scene (or --condition)");
        }
        job = [asked] { return exportClip(*asked); };
    });
}

} // namespace latemile::batch
