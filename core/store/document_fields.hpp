// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/json_file.hpp"

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace latemile {

/// Of athlete.json and session.json.
inline constexpr std::int64_t storeVersion = 1;

/// A calendar day as "2026-08-29"; absent where it is optional: empty.
Outcome<std::string> dateFrom(const JsonField& document, std::string_view key);
Outcome<std::string> optionalDateFrom(const JsonField& document, std::string_view key);
/// A list of texts; absent: empty.
Outcome<std::vector<std::string>> textsFrom(const JsonField& document, std::string_view key);

/// What a later Latemile or somebody's script wrote beside the fields in `known`, as JSON text, so
/// that a save gives it back; empty where there is nothing.
[[nodiscard]] std::string unknownIn(const JsonField& object,
                                    std::initializer_list<std::string_view> known);
/// Puts it back beside our own fields, which stand where a name is in both.
void putUnknown(nlohmann::json& object, const std::string& unknown);

template <class Value>
void putIfKnown(nlohmann::json& object, const char* key, const std::optional<Value>& value)
{
    if (value) {
        object[key] = *value;
    }
}
void putIfAny(nlohmann::json& object, const char* key, const std::string& text);

} // namespace latemile
