// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/arguments.hpp"

#include "core/csv.hpp"

#include <algorithm>
#include <cctype>

namespace latemile::batch {

namespace {

std::string listed(const std::vector<std::string>& endings)
{
    std::string words;
    for (const auto& ending : endings) {
        words += (words.empty() ? "" : " or ") + ending;
    }
    return words;
}

CLI::Validator endsIn(const std::vector<std::string>& endings)
{
    return CLI::Validator(
        [endings](std::string& name) {
            const bool known =
                std::find(endings.begin(), endings.end(), endingOf(name)) != endings.end();
            return known ? std::string() : "the file's name must end in " + listed(endings);
        },
        std::string());
}

std::string faultOfRate(std::string& text)
{
    const auto rate = numberFrom(text);
    return rate && *rate > 0 ? std::string() : "'" + text + "' is no number above 0";
}

} // namespace

void addPath(CLI::App& word, const std::string& name, std::filesystem::path& path,
             const std::string& help)
{
    addInput(word, name, path, help)->required()->type_name("");
}

CLI::Option* addInput(CLI::App& word, const std::string& name, std::filesystem::path& path,
                      const std::string& help)
{
    // Through a text: CLI11 would print a path in quotation marks and refuse an empty one late.
    return word
        .add_option_function<std::string>(
            name, [&path](const std::string& text) { path = text; }, help)
        ->type_name("FILE")
        ->check(CLI::Validator(
            [](std::string& text) {
                return text.empty() ? std::string("a file's name is wanted") : std::string();
            },
            ""));
}

CLI::Option* addOut(CLI::App& word, std::filesystem::path& out,
                    const std::vector<std::string>& endings, const std::string& help)
{
    return word
        .add_option_function<std::string>(
            "--out", [&out](const std::string& text) { out = text; }, help)
        ->type_name("FILE")
        ->check(endsIn(endings));
}

void addJson(CLI::App& word, bool& json)
{
    word.add_flag("--json", json, "Answer in JSON instead of a table to read");
}

void addCaptureRate(CLI::App& word, std::optional<double>& rate)
{
    word.add_option_function<std::string>(
            "--capture-fps", [&rate](const std::string& text) { rate = numberFrom(text); },
            "Frames the camera took in a real second, where the file does not say (slow motion)")
        ->type_name("F")
        ->check(CLI::Validator(&faultOfRate, ""));
}

std::string endingOf(const std::filesystem::path& file)
{
    auto ending = file.extension().string();
    std::transform(ending.begin(), ending.end(), ending.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return ending;
}

} // namespace latemile::batch
