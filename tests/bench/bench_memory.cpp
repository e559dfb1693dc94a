// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/bench/bench_memory.hpp"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include <unistd.h>

namespace latemile {

double megabytesOf(const std::string& process, const std::vector<std::string>& fields)
{
    std::ifstream status("/proc/" + process + "/status");
    double kilobytes = 0;
    for (std::string line; std::getline(status, line);) {
        if (std::ranges::any_of(fields, [&](const auto& one) { return line.starts_with(one); })) {
            kilobytes += std::strtod(line.c_str() + line.find(':') + 1, nullptr);
        }
    }
    return kilobytes / 1024;
}

double megabytesOfWorkers(const std::vector<std::string>& fields)
{
    const auto self = "PPid:\t" + std::to_string(::getpid());
    double all = 0;
    const std::filesystem::directory_iterator processes("/proc");
    for (const auto& entry : processes) {
        std::ifstream status(entry.path() / "status");
        for (std::string line; std::getline(status, line);) {
            all += line == self ? megabytesOf(entry.path().filename(), fields) : 0;
        }
    }
    return all;
}

} // namespace latemile
