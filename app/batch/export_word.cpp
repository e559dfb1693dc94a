// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/arguments.hpp"
#include "app/batch/clip_choice.hpp"
#include "app/batch/progress.hpp"
#include "app/batch/word.hpp"
#include "core/exchange/clip_export.hpp"
#include "core/json_file.hpp"
#include "core/store/coaches.hpp"
#include "core/store/library_measures.hpp"

namespace latemile::batch {

namespace {

struct Asked {
    ClipChoice clip;
    std::filesystem::path into;
    bool json{};
};

/// What the names of the files begin with.
std::string stemOf(const ClipChoice& choice)
{
    return choice.condition.empty() ? choice.clip.stem().string() : choice.condition;
}

Outcome<OwnMeasures> ownOf(const ClipChoice& choice)
{
    return choice.condition.empty() ? OwnMeasures() : ownMeasuresIn(libraryOf(choice.clip));
}

Outcome<ClipExport> made(const ChosenClip& chosen, const OwnMeasures& own, const std::string& stem)
{
    ClipOptions options;
    options.captureRate = chosen.marked.conditions.scene.captureRate;
    ASSIGN_OR_RETURN(const auto reader, ClipReader::open(chosen.file, options));
    ASSIGN_OR_RETURN(const auto readings, readingsOf(chosen.marked, false, own));
    return exportOf(chosen.marked, reader.facts(), readings, stem);
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
    const Progress progress("Exporting from " + asked.clip.clip.string());
    ASSIGN_OR_RETURN(const auto chosen, chosenClip(asked.clip));
    ASSIGN_OR_RETURN(const auto own, ownOf(asked.clip));
    ASSIGN_OR_RETURN(const auto files, made(chosen, own, stemOf(asked.clip)));
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
    addClipChoice(*word, asked->clip);
    addInput(*word, "--into", asked->into, "The folder to write into, made where there is none")
        ->required();
    addJson(*word, asked->json);
    word->callback([asked, word, &job] {
        needWhole(asked->clip, *word);
        job = [asked] { return exportClip(*asked); };
    });
}

} // namespace latemile::batch
