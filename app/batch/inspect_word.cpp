// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/arguments.hpp"
#include "app/batch/progress.hpp"
#include "app/batch/word.hpp"
#include "core/clip/inspection.hpp"
#include "core/json_file.hpp"

namespace latemile::batch {

namespace {

struct Asked {
    std::filesystem::path clip;
    ClipOptions options;
    bool json{};
};

Outcome<std::string> inspect(const Asked& asked)
{
    const Progress progress("Reading " + asked.clip.string());
    ASSIGN_OR_RETURN(const auto clip, ClipReader::open(asked.clip, asked.options));
    return asked.json ? jsonText(inspectionJson(asked.clip, clip.facts()))
                      : inspectionText(asked.clip, clip.facts());
}

} // namespace

void addInspect(CLI::App& program, Job& job)
{
    auto asked = std::make_shared<Asked>();
    auto* word =
        program.add_subcommand("inspect", "What a clip is, its timing, and what to beware of");
    addPath(*word, "CLIP", asked->clip, "The video file");
    addCaptureRate(*word, asked->options.captureRate);
    addJson(*word, asked->json);
    word->callback([asked, &job] { job = [asked] { return inspect(*asked); }; });
}

} // namespace latemile::batch
