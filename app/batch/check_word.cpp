// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/arguments.hpp"
#include "app/batch/progress.hpp"
#include "app/batch/text_table.hpp"
#include "app/batch/word.hpp"
#include "core/json_file.hpp"
#include "core/store/library_check.hpp"

#include <algorithm>
#include <ctime>

namespace latemile::batch {

namespace {

struct Asked {
    std::filesystem::path folder;
    bool repair{};
    std::filesystem::path films;
    bool json{};
};

std::string textOf(const LibraryCheck& check)
{
    std::string text = std::to_string(check.documents) + " documents, " +
                       std::to_string(check.journals) + " journals, " +
                       std::to_string(check.clips) + " clips (" +
                       std::to_string(check.clipsWithSums) + " with a checksum)\n";
    if (!check.findings.empty()) {
        TextTable table({"state", "file", "what"});
        for (const auto& finding : check.findings) {
            table.addRow(
                {std::string(nameOf(finding.state)), finding.file.string(), finding.sentence});
        }
        text += table.text();
    }
    return text + (check.isSound() ? "All is whole.\n" : "");
}

/// By the clock on the wall: consent is given for days of a calendar.
std::string today()
{
    const auto now = std::time(nullptr);
    std::tm local{};
    ::localtime_r(&now, &local);
    char text[sizeof "2026-08-29"] = {};
    std::strftime(text, sizeof text, "%Y-%m-%d", &local);
    return text;
}

Outcome<std::string> check(const Asked& asked, std::string& complaint)
{
    const Progress progress("Checking " + asked.folder.string());
    ASSIGN_OR_RETURN(const auto result, checkLibrary(asked.folder, {.repair = asked.repair,
                                                                    .films = asked.films,
                                                                    .today = today()}));
    const auto bad = std::ranges::count(result.findings, Finding::State::Bad, &Finding::state);
    if (bad > 0) {
        complaint = std::to_string(bad) + (bad == 1 ? " file of " : " files of ") +
                    asked.folder.string() + (bad == 1 ? " needs" : " need") + " attention.";
    }
    return asked.json ? jsonText(toJson(result)) : textOf(result);
}

} // namespace

void addCheck(CLI::App& program, Job& job, std::string& complaint)
{
    auto asked = std::make_shared<Asked>();
    auto* word = program.add_subcommand(
        "check", "Whether every document, journal and clip of a library is whole and readable");
    addPath(*word, "LIBRARY", asked->folder, "The folder of the athletes' folders");
    auto* repair = word->add_flag(
        "--repair", asked->repair,
        "Put back what previous generations and journals hold, and write down missing checksums; "
        "deletes nothing");
    addInput(*word, "--films", asked->films,
             "With --repair: a folder to look in, by checksum, for linked films that are lost")
        ->type_name("FOLDER")
        ->needs(repair);
    addJson(*word, asked->json);
    word->footer("Exit code: 0 all is whole; 1 something needs attention, told in the answer; 2 "
                 "wrong use.");
    word->callback([asked, &job, &complaint] {
        job = [asked, &complaint] { return check(*asked, complaint); };
    });
}

} // namespace latemile::batch
