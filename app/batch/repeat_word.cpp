// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/arguments.hpp"
#include "app/batch/marked_files.hpp"
#include "app/batch/progress.hpp"
#include "app/batch/text_table.hpp"
#include "app/batch/word.hpp"
#include "core/compare/repeat_json.hpp"
#include "core/json_file.hpp"
#include "core/measures/measure.hpp"
#include "core/rounding.hpp"
#include "core/whole_file.hpp"

namespace latemile::batch {

namespace {

struct Asked {
    MarkedFiles files;
    std::filesystem::path again;
    std::filesystem::path out;
    bool json{};
};

std::string iccText(const std::optional<WithInterval>& icc)
{
    return icc ? fixedText(icc->value, 2) + " (" + fixedText(icc->low, 2) + " to " +
                     fixedText(icc->high, 2) + ")"
               : "";
}

std::string landmarksText(const RepeatResult& result)
{
    TextTable table({"landmark", ">pairs", ">across px", ">down px", ">one click cm"});
    for (const auto& repeat : result.landmarks) {
        table.addRow({std::string(nameOf(repeat.landmark)), std::to_string(repeat.across.n),
                      fixedText(repeat.across.withinTargetSd, 2),
                      fixedText(repeat.down.withinTargetSd, 2), fixedText(repeat.clickError(), 2)});
    }
    return table.text();
}

std::string measuresText(const RepeatResult& result)
{
    TextTable table({"measure", "unit", ">steps", ">bias", ">limits of agreement", ">typical error",
                     ">MDC95", ">ICC(2,1)", ">ICC(3,1)"});
    for (const auto& repeat : result.measures) {
        const auto* measure = findMeasure(repeat.measure);
        const int decimals = measure->decimals + 1;
        const auto text = [decimals](double value) { return fixedText(value, decimals); };
        const auto& agreement = repeat.agreement;
        table.addRow({std::string(measure->name), std::string(symbolOf(measure->unit)),
                      std::to_string(agreement.n), text(agreement.bias.value),
                      text(agreement.lowerLimit.value) + " to " + text(agreement.upperLimit.value),
                      text(repeat.typicalError), text(repeat.mdc95), iccText(repeat.icc21),
                      iccText(repeat.icc31)});
    }
    return table.text();
}

std::string repeatText(const RepeatResult& result)
{
    return landmarksText(result) + "(standard error of one mark per axis, from " +
           std::to_string(result.pairs) + " marks placed twice)\n\n" +
           (result.measures.empty()
                ? "No measure could be read three times from both markings.\n"
                : measuresText(result) + "(differences: first less second marking)\n");
}

Outcome<std::string> repeat(const Asked& asked)
{
    const Progress progress("Reading " + asked.files.clip.string());
    ASSIGN_OR_RETURN(const auto first, markedClipFrom(asked.files));
    ASSIGN_OR_RETURN(const auto second, otherMarking(asked.files, asked.again));
    ASSIGN_OR_RETURN(const auto result, repeatResult(first, second));
    const auto document = jsonText(toJson(result));
    if (!asked.out.empty()) {
        RETURN_IF_ERROR(replaceFile(asked.out, document));
    }
    return asked.json ? document : repeatText(result);
}

} // namespace

void addRepeat(CLI::App& program, Job& job)
{
    auto asked = std::make_shared<Asked>();
    auto* word = program.add_subcommand(
        "repeat", "How well two markings of one clip agree: a coach's own, or two coaches'");
    addPath(*word, "CLIP", asked->files.clip, "The video file");
    addInput(*word, "--marks", asked->files.marks, "The first marking (MARKS.csv)")->required();
    addInput(*word, "--again", asked->again, "The second marking (MARKS.csv)")->required();
    addInput(*word, "--contacts", asked->files.contacts, "Contacts and toe-offs of both")
        ->required();
    addInput(*word, "--scene", asked->files.scene, "Scale, plumb line (SCENE.json)")->required();
    addOut(*word, asked->out, {".json"}, "The result to write as JSON");
    addJson(*word, asked->json);
    word->callback([asked, &job] { job = [asked] { return repeat(*asked); }; });
}

} // namespace latemile::batch
