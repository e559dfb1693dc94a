// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <optional>
#include <string>

namespace latemile {

/// How workers are started and how long they are waited for.
struct WorkerTerms {
    /// The program to start: this very one, also where its file was replaced meanwhile.
    std::string program = "/proc/self/exe";
    /// Without any sign of life for so long, a worker is ended.
    std::chrono::milliseconds longestSilence = std::chrono::seconds(15);
    /// An answer that takes longer than this in all is not waited for, whatever signs there are.
    std::chrono::milliseconds longestAnswer = std::chrono::minutes(10);
};

/// Whether files from outside are decoded apart from the program is a property of the whole
/// program: main() says it once, before the first clip is opened, so that no place that opens a
/// clip can forget it. A program that says nothing decodes in its own process. From any thread.
void decodeInWorkers(const WorkerTerms& terms = {});
void decodeInProcess();

/// Nothing where clips are decoded in this process.
[[nodiscard]] std::optional<WorkerTerms> workerTerms();

} // namespace latemile
