// SPDX-License-Identifier: GPL-3.0-or-later
// latemile-batch: what the window computes, one clip or session at a time and without a window.
#include "app/batch/word.hpp"
#include "core/clip/worker/decoding_place.hpp"
#include "core/clip/worker/worker_main.hpp"

#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>

#include <cstdio>
#include <exception>
#include <iostream>
#include <new>
#include <sstream>

using namespace latemile;

namespace {

/// What the program tells its caller, a script as a rule.
enum Exit { done = 0, couldNot = 1, wrongUse = 2 };

Exit sayError(const std::string& sentence)
{
    std::cerr << "latemile-batch: " << sentence << std::endl;
    return couldNot;
}

/// A full disk or a closed pipe behind standard output must not look like success.
Exit print(const std::string& text)
{
    const bool whole =
        std::fwrite(text.data(), 1, text.size(), stdout) == text.size() && std::fflush(stdout) == 0;
    return whole ? done : sayError("The answer could not be written to standard output.");
}

/// Help and version end the parsing the way a fault does, yet are none.
Exit endOfParsing(const CLI::App& program, const CLI::ParseError& reason)
{
    if (reason.get_exit_code() == static_cast<int>(CLI::ExitCodes::Success)) {
        std::ostringstream text;
        program.exit(reason, text, text);
        return print(text.str());
    }
    std::string sentence = reason.what();
    for (auto& c : sentence) {
        c = c == '\n' ? ' ' : c;
    }
    sayError(sentence + (sentence.ends_with('.') ? "" : ".") +
             " Run latemile-batch --help, or --help after a word, to see how it is used.");
    return wrongUse;
}

Exit run(int argc, char** argv)
{
    CLI::App program("Reads running clips frame by frame and turns marked ones into readings, a "
                     "comparison and a sheet.",
                     "latemile-batch");
    program.set_version_flag("--version", "latemile-batch " LATEMILE_VERSION);
    program.require_subcommand(1);
    decodeInWorkers();
    program.add_flag_callback("--in-process", decodeInProcess,
                              "Before the word: decode clips in this process, not in a confined "
                              "one of their own; for clips you trust");
    program.footer("Exit code: 0 done; 1 could not be done, with one sentence on standard error; "
                   "2 wrong use.");
    batch::Job job;
    batch::addInspect(program, job);
    batch::addFrame(program, job);
    batch::addFollow(program, job);
    batch::addContacts(program, job);
    batch::addPropose(program, job);
    batch::addReview(program, job);
    batch::addMeasure(program, job);
    batch::addCompare(program, job);
    batch::addRepeat(program, job);
    batch::addProgress(program, job);
    batch::addSheet(program, job);
    batch::addFilm(program, job);
    batch::addExport(program, job);
    batch::addHandOver(program, job);
    batch::addTakeIn(program, job);
    std::string complaint;
    batch::addCheck(program, job, complaint);
    try {
        program.parse(argc, argv);
    } catch (const CLI::ParseError& reason) {
        return endOfParsing(program, reason);
    }
    const auto text = job();
    if (!text) {
        return sayError(text.error().sentence);
    }
    const Exit printed = print(*text);
    return printed == done && !complaint.empty() ? sayError(complaint) : printed;
}

} // namespace

int main(int argc, char** argv)
{
    serveIfWorker(argc, argv);
    try {
        return run(argc, argv);
    } catch (const std::bad_alloc&) {
        return sayError("This machine's memory does not suffice for this clip.");
    } catch (const std::exception& unforeseen) {
        return sayError(std::string("Something went wrong inside the program: ") +
                        unforeseen.what() + ".");
    }
}
