// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/arguments.hpp"
#include "app/batch/progress.hpp"
#include "app/batch/word.hpp"
#include "core/follow/follow.hpp"
#include "core/json_file.hpp"
#include "core/marks/marks_file.hpp"
#include "core/whole_file.hpp"

namespace latemile::batch {

namespace {

struct Asked {
    std::filesystem::path clip;
    ClipOptions options;
    std::filesystem::path marks;
    std::optional<std::int64_t> first;
    std::optional<std::int64_t> last;
    std::filesystem::path out;
    bool json{};
};

std::optional<FrameNumber> frameFrom(std::optional<std::int64_t> number)
{
    return number ? std::optional(FrameNumber{*number}) : std::nullopt;
}

nlohmann::json toJson(const FollowResult& result)
{
    auto gaps = nlohmann::json::array();
    for (const auto& gap : result.gaps) {
        gaps.push_back({{"kind", nameOf(gap.kind)},
                        {"side", nameOf(gap.side)},
                        {"landmark", nameOf(gap.landmark)},
                        {"first", gap.first.value},
                        {"last", gap.last.value}});
    }
    return {{"version", 1}, {"followed", result.marks.size()}, {"gaps", gaps}};
}

std::string answerOf(const Asked& asked, const FollowResult& result)
{
    if (asked.json) {
        return jsonText(toJson(result));
    }
    std::string text = std::to_string(result.marks.size()) +
                       " followed marks and the placed ones " + "are in " + asked.out.string() +
                       ".\n";
    for (const auto& gap : result.gaps) {
        if (gap.kind != FollowGap::Kind::Bridged) {
            text += sentenceOf(gap) + "\n";
        }
    }
    return text;
}

Outcome<std::string> follow(const Asked& asked)
{
    const Progress progress("Following through " + asked.clip.string());
    ASSIGN_OR_RETURN(auto clip, ClipReader::open(asked.clip, asked.options));
    Marking marking;
    ASSIGN_OR_RETURN(marking.marks,
                     readMarks(asked.marks, clip.index(), clip.facts().width, clip.facts().height));
    FollowOptions options;
    options.first = frameFrom(asked.first);
    options.last = frameFrom(asked.last);
    ASSIGN_OR_RETURN(auto result, followMarks(clip, marking, options));
    auto all = result.marks;
    for (const auto& [key, mark] : marking.marks) {
        if (mark.origin == Origin::Placed) {
            all[key] = mark;
        }
    }
    RETURN_IF_ERROR(replaceFile(asked.out, marksText(all, clip.index())));
    return answerOf(asked, result);
}

} // namespace

void addFollow(CLI::App& program, Job& job)
{
    auto asked = std::make_shared<Asked>();
    auto* word = program.add_subcommand(
        "follow", "Carries placed marks through a clip, each with its standard error");
    addPath(*word, "CLIP", asked->clip, "The video file");
    addInput(*word, "--marks", asked->marks, "Placed landmarks of one step or more (MARKS.csv)")
        ->required();
    word->add_option("--first", asked->first, "First frame of the stretch; else the clip's first")
        ->check(CLI::NonNegativeNumber);
    word->add_option("--last", asked->last, "Last frame of the stretch; else the clip's last")
        ->check(CLI::NonNegativeNumber);
    addOut(*word, asked->out, {".csv"}, "All marks, placed and followed, as MARKS.csv")->required();
    addCaptureRate(*word, asked->options.captureRate);
    word->add_flag("--fields", asked->options.fieldsAsFrames,
                   "Interlaced clips: one picture a field, at twice the rate");
    addJson(*word, asked->json);
    word->callback([asked, &job] { job = [asked] { return follow(*asked); }; });
}

} // namespace latemile::batch
