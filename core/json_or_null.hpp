// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <nlohmann/json.hpp>

#include <optional>

namespace latemile {

/// What is not there is null in a document.
template <class Value>
[[nodiscard]] nlohmann::json orNull(const std::optional<Value>& value)
{
    return value ? nlohmann::json(*value) : nlohmann::json(nullptr);
}

} // namespace latemile
