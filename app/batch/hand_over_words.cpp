// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/arguments.hpp"
#include "app/batch/progress.hpp"
#include "app/batch/word.hpp"
#include "core/json_file.hpp"
#include "core/store/hand_over.hpp"

namespace latemile::batch {

namespace {

struct Asked {
    std::filesystem::path from;
    std::filesystem::path to;
    bool json{};
};

std::string answer(const Asked& asked, const std::filesystem::path& made, const char* words)
{
    return asked.json ? jsonText({{"version", 1}, {"file", made.string()}})
                      : words + made.string() + ".\n";
}

Outcome<std::string> handOverRecord(const Asked& asked)
{
    const Progress progress("Handing over " + asked.from.string());
    RETURN_IF_ERROR(handOver(asked.from, asked.to));
    return answer(asked, asked.to, "The whole record is in ");
}

Outcome<std::string> takeInRecord(const Asked& asked)
{
    const Progress progress("Taking in " + asked.from.string());
    ASSIGN_OR_RETURN(const auto athlete, takeIn(asked.from, asked.to));
    return answer(asked, athlete, "The record is sound and stands in ");
}

} // namespace

void addHandOver(CLI::App& program, Job& job)
{
    auto asked = std::make_shared<Asked>();
    auto* word = program.add_subcommand("hand-over", "An athlete's whole record as one zip file");
    addPath(*word, "ATHLETE", asked->from, "The folder that holds athlete.json");
    addOut(*word, asked->to, {".zip"}, "The zip file to write")->required();
    addJson(*word, asked->json);
    word->callback([asked, &job] { job = [asked] { return handOverRecord(*asked); }; });
}

void addTakeIn(CLI::App& program, Job& job)
{
    auto asked = std::make_shared<Asked>();
    auto* word = program.add_subcommand(
        "take-in", "Brings a record that was handed over into a library, checked before it counts");
    addPath(*word, "ZIP", asked->from, "The zip file");
    addPath(*word, "LIBRARY", asked->to, "The folder of the athletes' folders");
    addJson(*word, asked->json);
    word->callback([asked, &job] { job = [asked] { return takeInRecord(*asked); }; });
}

} // namespace latemile::batch
