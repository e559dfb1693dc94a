// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/coaches.hpp"

#include "core/document_schema.hpp"
#include "core/json_file.hpp"
#include "core/store/document_fields.hpp"
#include "core/store/writers_turn.hpp"
#include "core/whole_file.hpp"

#include <algorithm>

namespace latemile {

namespace {

constexpr NumberRange clickRange{0.001, 20.0}; // cm

std::filesystem::path fileIn(const std::filesystem::path& library)
{
    return library / "coaches.json";
}

Outcome<Coach> coachFrom(const JsonField& document)
{
    Coach coach;
    ASSIGN_OR_RETURN(coach.name, document.text("name"));
    ASSIGN_OR_RETURN(coach.date, dateFrom(document, "date"));
    ASSIGN_OR_RETURN(const auto pairs, document.member("pairs"));
    ASSIGN_OR_RETURN(const auto count, pairs.integer(0, 1'000'000));
    coach.pairs = static_cast<int>(count);
    ASSIGN_OR_RETURN(const auto errors, document.member("click_error_cm"));
    for (std::size_t i = 0; i < landmarkCount; ++i) {
        const auto name = nameOf(static_cast<Landmark>(i));
        ASSIGN_OR_RETURN(coach.clicks.measured[i], errors.optionalNumber(name, clickRange));
    }
    return coach;
}

nlohmann::json toJson(const Coach& coach)
{
    auto errors = nlohmann::json::object();
    for (std::size_t i = 0; i < landmarkCount; ++i) {
        if (const auto& error = coach.clicks.measured[i]) {
            errors[std::string(nameOf(static_cast<Landmark>(i)))] = *error;
        }
    }
    return {{"name", coach.name},
            {"date", coach.date},
            {"pairs", coach.pairs},
            {"click_error_cm", std::move(errors)}};
}

} // namespace

Outcome<std::vector<Coach>> readCoaches(const std::filesystem::path& library)
{
    std::error_code ignored;
    if (!std::filesystem::exists(fileIn(library), ignored)) {
        return std::vector<Coach>{};
    }
    ASSIGN_OR_RETURN(const auto document, readJsonFile(fileIn(library)));
    const JsonField root(document, fileIn(library).string());
    RETURN_IF_ERROR(needVersion(root, storeVersion));
    ASSIGN_OR_RETURN(const auto list, root.member("coaches"));
    ASSIGN_OR_RETURN(const auto items, list.items());
    std::vector<Coach> coaches;
    for (const auto& item : items) {
        ASSIGN_OR_RETURN(auto coach, coachFrom(item));
        coaches.push_back(std::move(coach));
    }
    RETURN_IF_ERROR(needSchema(root, "coaches"));
    return coaches;
}

Outcome<void> keepCoach(const Coach& coach, const std::filesystem::path& library)
{
    ASSIGN_OR_RETURN(const auto turn, WritersTurn::take(library));
    ASSIGN_OR_RETURN(auto coaches, readCoaches(library));
    const auto same = std::ranges::find(coaches, coach.name, &Coach::name);
    if (same == coaches.end()) {
        coaches.push_back(coach);
    } else {
        *same = coach;
    }
    auto list = nlohmann::json::array();
    for (const auto& one : coaches) {
        list.push_back(toJson(one));
    }
    return replaceDocument(fileIn(library),
                           jsonText({{"version", storeVersion}, {"coaches", std::move(list)}}));
}

ClickErrors clickErrorsOf(const std::vector<Coach>& coaches, std::string_view name)
{
    const auto found = std::ranges::find(coaches, name, &Coach::name);
    return found == coaches.end() || name.empty() ? ClickErrors{} : found->clicks;
}

std::filesystem::path libraryOf(const std::filesystem::path& sessionFolder)
{
    std::error_code ignored;
    auto whole = std::filesystem::absolute(sessionFolder, ignored).lexically_normal();
    if (!whole.has_filename()) { // "…/2026-08-29/"
        whole = whole.parent_path();
    }
    return whole.parent_path().parent_path();
}

} // namespace latemile
