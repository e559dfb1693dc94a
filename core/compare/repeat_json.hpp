// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/compare/repeat_result.hpp"

#include <nlohmann/json_fwd.hpp>

namespace latemile {

/// As resources/schema/repeat.schema.json describes it.
[[nodiscard]] nlohmann::json toJson(const RepeatResult& result);

} // namespace latemile
