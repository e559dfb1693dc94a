// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/about_file.hpp"
#include "app/batch/arguments.hpp"
#include "app/batch/progress.hpp"
#include "app/batch/runner_box.hpp"
#include "app/batch/seen_runner.hpp"
#include "app/batch/text_parts.hpp"
#include "app/batch/word.hpp"
#include "app/resource_folder.hpp"
#include "core/csv.hpp"
#include "core/json_file.hpp"
#include "core/marks/marks_file.hpp"
#include "core/propose/joined_proposals.hpp"
#include "core/propose/search_frames.hpp"
#include "core/rounding.hpp"
#include "core/whole_file.hpp"

#include <algorithm>
#include <charconv>

namespace latemile::batch {

namespace {

/// "40,60,80", "100-180", "every 4", or any of them as "100-180 every 4".
struct FrameChoice {
    std::vector<std::int64_t> list;
    std::int64_t first{0};
    std::optional<std::int64_t> last;
    std::int64_t every{1};
};

struct Asked {
    std::filesystem::path clip;
    std::filesystem::path scene;
    std::filesystem::path marks;
    std::filesystem::path out;
    std::optional<double> captureRate;
    std::optional<Box> box;
    std::optional<FrameChoice> frames; ///< none: those the window looks at
    bool json{};
};

std::optional<std::int64_t> wholeFrom(std::string_view text)
{
    std::int64_t number{};
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), number);
    const bool whole = fault == std::errc{} && end == text.data() + text.size() && number >= 0;
    return whole ? std::optional(number) : std::nullopt;
}

bool readRange(std::string_view text, FrameChoice& choice)
{
    const auto ends = partsOf(text, '-');
    const auto first = wholeFrom(ends.front());
    const auto last = wholeFrom(ends.back());
    if (ends.size() != 2 || !first || !last || *last < *first) {
        return false;
    }
    choice.first = *first;
    choice.last = *last;
    return true;
}

bool readList(std::string_view text, FrameChoice& choice)
{
    for (const auto part : partsOf(text, ',')) {
        const auto number = wholeFrom(part);
        if (!number) {
            return false;
        }
        choice.list.push_back(*number);
    }
    std::sort(choice.list.begin(), choice.list.end());
    choice.list.erase(std::unique(choice.list.begin(), choice.list.end()), choice.list.end());
    return true;
}

std::optional<FrameChoice> framesFrom(std::string_view text)
{
    FrameChoice choice;
    constexpr std::string_view everyWord = "every ";
    if (const auto at = text.find(everyWord); at != std::string_view::npos) {
        const auto every = wholeFrom(text.substr(at + everyWord.size()));
        if (!every || *every < 1) {
            return std::nullopt;
        }
        choice.every = *every;
        text = text.substr(0, at == 0 ? 0 : at - 1);
        return text.empty() || readRange(text, choice) ? std::optional(choice) : std::nullopt;
    }
    const bool isRange = text.find('-') != std::string_view::npos;
    return (isRange ? readRange(text, choice) : readList(text, choice)) ? std::optional(choice)
                                                                        : std::nullopt;
}

Outcome<std::vector<FrameNumber>> framesOf(const Asked& asked, const FrameIndex& index)
{
    if (!asked.frames) {
        return framesToSearch(index);
    }
    const auto last = index.size() - 1;
    const auto& choice = *asked.frames;
    const auto highest = choice.list.empty() ? choice.last.value_or(last) : choice.list.back();
    if (highest > last) {
        return fail(Error::Kind::NotFound, asked.clip.string() + " has the frames 0 to " +
                                               std::to_string(last) + ", not " +
                                               std::to_string(highest) + ".");
    }
    std::vector<FrameNumber> frames;
    for (const auto number : choice.list) {
        frames.push_back({number});
    }
    if (frames.empty()) {
        for (auto number = choice.first; number <= highest; number += choice.every) {
            frames.push_back({number});
        }
    }
    return frames;
}

nlohmann::json doubtsIn(const Proposals& proposals)
{
    auto doubtful = nlohmann::json::array();
    for (const auto& [key, proposal] : proposals) {
        if (proposal.doubt != Doubt::None) {
            doubtful.push_back({{"frame", key.frame.value},
                                {"side", nameOf(key.side)},
                                {"landmark", nameOf(key.landmark)},
                                {"why", wordsFor(proposal.doubt)}});
        }
    }
    return doubtful;
}

std::string answer(const Asked& asked, const BodyPaths& paths, const Proposals& proposals)
{
    const auto doubtful = doubtsIn(proposals);
    if (asked.json) {
        return jsonText({{"version", 1},
                         {"clip", asked.clip.filename().string()},
                         {"file", asked.out.string()},
                         {"view", nameOf(paths.view)},
                         {"frames", paths.frames.size()},
                         {"proposals", proposals.size()},
                         {"trunk_px", paths.trunkPx},
                         {"doubtful", doubtful},
                         {"remarks", paths.remarks}});
    }
    std::string text = std::to_string(proposals.size()) + " proposals on " +
                       std::to_string(paths.frames.size()) + " frames are in " +
                       asked.out.string() + "; " + std::to_string(doubtful.size()) +
                       " of them are doubtful and have a wide se_px. None is a fact before a coach "
                       "has confirmed it.\n";
    for (const auto& remark : paths.remarks) {
        text += remark + "\n";
    }
    return text;
}

struct Known {
    ClipOptions options;
    std::optional<View> view;
};

Outcome<Known> knownOf(const Asked& asked)
{
    Known known;
    if (!asked.scene.empty()) {
        ASSIGN_OR_RETURN(const auto scene, readScene(asked.scene));
        RETURN_IF_ERROR(needSideView(scene.view));
        known.view = scene.view;
        known.options.captureRate = scene.captureRate;
    }
    if (asked.captureRate) {
        known.options.captureRate = asked.captureRate;
    }
    return known;
}

Outcome<std::map<MarkKey, Mark>> placedMarks(const Asked& asked, const ClipReader& clip)
{
    if (asked.marks.empty()) {
        return std::map<MarkKey, Mark>();
    }
    return readMarks(asked.marks, clip.index(), clip.facts().width, clip.facts().height);
}

Outcome<std::string> propose(const Asked& asked)
{
    const Progress progress("Proposing landmarks of " + asked.clip.string());
    ASSIGN_OR_RETURN(const auto known, knownOf(asked));
    ASSIGN_OR_RETURN(auto clip, ClipReader::open(asked.clip, known.options));
    ASSIGN_OR_RETURN(const auto frames, framesOf(asked, clip.index()));
    RETURN_IF_ERROR(needInside(asked.box, asked.clip, clip.facts()));
    ASSIGN_OR_RETURN(const auto marks, placedMarks(asked, clip));
    PoseNetworks networks(resourceFolder());
    ASSIGN_OR_RETURN(auto paths, aboutFile(asked.clip, seenRunner(clip, asked.clip, networks,
                                                                  frames, asked.box, known.view)));
    const auto [proposals, remark] = bestProposals(clip, paths, marks);
    if (!remark.empty()) {
        paths.remarks.push_back(remark);
    }
    RETURN_IF_ERROR(replaceFile(asked.out, marksText(marksOf(proposals), clip.index())));
    return answer(asked, paths, proposals);
}

} // namespace

void addPropose(CLI::App& program, Job& job)
{
    auto asked = std::make_shared<Asked>();
    auto* word = program.add_subcommand(
        "propose", "A first guess of every landmark, to be confirmed or moved by a coach");
    addPath(*word, "CLIP", asked->clip, "The video file, filmed from the side");
    addInput(*word, "--scene", asked->scene, "Which side is filmed (SCENE.json); else it is seen");
    addInput(*word, "--marks", asked->marks,
             "Marks already placed (MARKS.csv): proposals learn from them, go with what is "
             "followed from them, and leave them out");
    addBox(
        *word, asked->box,
        "A box round the runner on the first frame, pixels: needed where others stand beside her");
    word->add_option_function<std::string>(
            "--frames", [asked](const std::string& text) { asked->frames = framesFrom(text); },
            "Which frames, else some 125 a second: 40,60,80 or 100-180 or 'every 4' or "
            "'100-180 every 4'")
        ->type_name("FRAMES")
        ->check(CLI::Validator(
            [](std::string& text) {
                return framesFrom(text) ? std::string()
                                        : "'" + text +
                                              "' is neither frames (40,60), a range (100-180) nor "
                                              "'every 4'";
            },
            ""));
    addOut(*word, asked->out, {".csv"}, "The proposals to write (MARKS.csv)")->required();
    addCaptureRate(*word, asked->captureRate);
    addJson(*word, asked->json);
    word->callback([asked, &job] { job = [asked] { return propose(*asked); }; });
}

} // namespace latemile::batch
