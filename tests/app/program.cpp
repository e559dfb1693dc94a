// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/program.hpp"

#include "tests/scratch_folder.hpp"

#include "tests/scratch_folder.hpp"

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <regex>

namespace latemile::tests {

namespace {

void sendTo(int descriptor, const char* file, int flags)
{
    const int opened = ::open(file, flags, 0600);
    if (opened < 0 || ::dup2(opened, descriptor) < 0) {
        ::_exit(126);
    }
}

} // namespace

Ran run(const std::string& program, const std::vector<std::string>& arguments)
{
    const ScratchFolder folder;
    const auto out = folder / "out";
    const auto err = folder / "err";
    std::vector<char*> words{const_cast<char*>(program.c_str())};
    for (const auto& argument : arguments) {
        words.push_back(const_cast<char*>(argument.c_str()));
    }
    words.push_back(nullptr);
    const pid_t child = ::fork();
    if (child == 0) {
        sendTo(STDIN_FILENO, "/dev/null", O_RDONLY);
        sendTo(STDOUT_FILENO, out.c_str(), O_WRONLY | O_CREAT);
        sendTo(STDERR_FILENO, err.c_str(), O_WRONLY | O_CREAT);
        ::execvp(words[0], words.data());
        ::_exit(127);
    }
    int status = 0;
    ::waitpid(child, &status, 0);
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, bytesOf(out), bytesOf(err)};
}

Ran batch(const std::vector<std::string>& arguments)
{
    auto ran = run(LATEMILE_BATCH, arguments);
    ran.err = std::regex_replace(ran.err, std::regex("[^\n]* \\.\\.\\. [0-9]+ s\n"), "");
    return ran;
}

std::string installedWithoutNetwork(const ScratchFolder& folder)
{
    std::filesystem::create_directories(folder / "bin");
    std::filesystem::create_directories(folder / "share/latemile/pose");
    const auto program = folder / "bin/latemile-batch";
    std::filesystem::copy_file(LATEMILE_BATCH, program);
    return program.string();
}

} // namespace latemile::tests
