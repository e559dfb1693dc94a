// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"

#include <CLI/App.hpp>

#include <functional>
#include <string>

namespace latemile::batch {

/// What a word of latemile-batch does once its arguments are read: the text for standard output.
using Job = std::function<Outcome<std::string>()>;

/// Each adds one word to the program. When that word is the one asked for, `job`, which must
/// outlive the parsing, becomes what it does.
void addInspect(CLI::App& program, Job& job);
void addFrame(CLI::App& program, Job& job);
void addFollow(CLI::App& program, Job& job);
void addContacts(CLI::App& program, Job& job);
void addPropose(CLI::App& program, Job& job);
void addReview(CLI::App& program, Job& job);
void addMeasure(CLI::App& program, Job& job);
void addCompare(CLI::App& program, Job& job);
void addRepeat(CLI::App& program, Job& job);
void addProgress(CLI::App& program, Job& job);
void addSheet(CLI::App& program, Job& job);
void addFilm(CLI::App& program, Job& job);
void addExport(CLI::App& program, Job& job);
void addHandOver(CLI::App& program, Job& job);
void addTakeIn(CLI::App& program, Job& job);
/// `complaint` becomes what is wrong with the library: the answer stands, the exit code is 1.
void addCheck(CLI::App& program, Job& job, std::string& complaint);

} // namespace latemile::batch
