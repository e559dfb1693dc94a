// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/document_fields.hpp"

#include <algorithm>
#include <chrono>

namespace latemile {
namespace {

/// A calendar day that exists.
bool isDate(std::string_view text)
{
    const auto digits = [&](std::size_t from, std::size_t count) {
        const auto part = text.substr(from, count);
        return part.find_first_not_of("0123456789") == std::string_view::npos
                   ? std::stoi(std::string(part))
                   : -1;
    };
    if (text.size() != 10 || text[4] != '-' || text[7] != '-' || digits(0, 4) < 0) {
        return false;
    }
    const std::chrono::year_month_day day{
        std::chrono::year{digits(0, 4)},
        std::chrono::month{static_cast<unsigned>(std::max(digits(5, 2), 0))},
        std::chrono::day{static_cast<unsigned>(std::max(digits(8, 2), 0))}};
    return day.ok();
}

Outcome<std::string> dateOf(const JsonField& field)
{
    ASSIGN_OR_RETURN(auto date, field.text());
    if (!isDate(date)) {
        return field.fault("a date reads like 2026-08-29, not '" + date + "'");
    }
    return date;
}

} // namespace

Outcome<std::string> dateFrom(const JsonField& document, std::string_view key)
{
    ASSIGN_OR_RETURN(const auto field, document.member(key));
    return dateOf(field);
}

Outcome<std::string> optionalDateFrom(const JsonField& document, std::string_view key)
{
    ASSIGN_OR_RETURN(const auto field, document.maybe(key));
    return field ? dateOf(*field) : std::string();
}

Outcome<std::vector<std::string>> textsFrom(const JsonField& document, std::string_view key)
{
    std::vector<std::string> texts;
    ASSIGN_OR_RETURN(const auto field, document.maybe(key));
    if (!field) {
        return texts;
    }
    ASSIGN_OR_RETURN(const auto items, field->items());
    for (const auto& item : items) {
        ASSIGN_OR_RETURN(auto text, item.text());
        texts.push_back(std::move(text));
    }
    return texts;
}

std::string unknownIn(const JsonField& object, std::initializer_list<std::string_view> known)
{
    auto rest = nlohmann::json::object();
    for (const auto& [key, value] : object.value().items()) {
        if (std::ranges::find(known, key) == known.end()) {
            rest[key] = value;
        }
    }
    return rest.empty() ? std::string() : rest.dump();
}

void putUnknown(nlohmann::json& object, const std::string& unknown)
{
    if (unknown.empty()) {
        return;
    }
    for (const auto& rest = nlohmann::json::parse(unknown);
         const auto& [key, value] : rest.items()) {
        if (!object.contains(key)) {
            object[key] = value;
        }
    }
}

void putIfAny(nlohmann::json& object, const char* key, const std::string& text)
{
    if (!text.empty()) {
        object[key] = text;
    }
}

} // namespace latemile
