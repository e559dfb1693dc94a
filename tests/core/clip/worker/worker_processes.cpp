// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/clip/worker/worker_processes.hpp"

#include <filesystem>
#include <fstream>
#include <iterator>

#include <unistd.h>

namespace latemile::test {

std::string statusOf(pid_t process, const std::string& name)
{
    std::ifstream status("/proc/" + std::to_string(process) + "/status");
    for (std::string line; std::getline(status, line);) {
        if (line.starts_with(name + ":")) {
            const auto value = line.find_first_not_of(" \t", name.size() + 1);
            return value == std::string::npos ? "" : line.substr(value);
        }
    }
    return {};
}

std::vector<pid_t> children()
{
    const auto self = std::to_string(::getpid());
    std::vector<pid_t> found;
    const std::filesystem::directory_iterator processes("/proc");
    for (const auto& entry : processes) {
        const auto name = entry.path().filename().string();
        if (name.find_first_not_of("0123456789") == std::string::npos) {
            const auto id = static_cast<pid_t>(std::stol(name));
            if (statusOf(id, "PPid") == self) {
                found.push_back(id);
            }
        }
    }
    return found;
}

std::size_t openDescriptors()
{
    const std::filesystem::directory_iterator open("/proc/self/fd");
    return static_cast<std::size_t>(std::distance(begin(open), end(open)));
}

} // namespace latemile::test
