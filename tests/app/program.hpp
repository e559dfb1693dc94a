// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace latemile::tests {

/// What a program that ran to its end left behind.
struct Ran {
    int exit{}; ///< its exit code; -1 when a signal ended it
    std::string out;
    std::string err;
};

/// Runs a program by its path, or by its name when it stands on the search path, without a shell
/// and without input.
Ran run(const std::string& program, const std::vector<std::string>& arguments);
/// Runs the latemile-batch just built. Its lines of progress, which come on a busy machine, are
/// left out of `err`.
Ran batch(const std::vector<std::string>& arguments);

class ScratchFolder;
/// latemile-batch as installed into `folder`, which finds its data in share/latemile beside its own
/// folder, without the pose network; its path.
std::string installedWithoutNetwork(const ScratchFolder& folder);

} // namespace latemile::tests
