// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <CLI/App.hpp>

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace latemile::batch {

/// Adds a required path without a dash; that it exists is seen when it is read.
void addPath(CLI::App& word, const std::string& name, std::filesystem::path& path,
             const std::string& help);
/// Adds an option that names a file to read.
CLI::Option* addInput(CLI::App& word, const std::string& name, std::filesystem::path& path,
                      const std::string& help);
/// Adds `--out FILE`, its end one of `endings` (".json"), lower case or upper; else wrong use.
CLI::Option* addOut(CLI::App& word, std::filesystem::path& out,
                    const std::vector<std::string>& endings, const std::string& help);
/// Adds `--json`: the answer as JSON instead of a table.
void addJson(CLI::App& word, bool& json);
/// Adds `--capture-fps F`, a number above 0.
void addCaptureRate(CLI::App& word, std::optional<double>& rate);

/// Lower case, with its dot: ".json".
[[nodiscard]] std::string endingOf(const std::filesystem::path& file);

} // namespace latemile::batch
