// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <nlohmann/json_fwd.hpp>

#include <string>

namespace latemile::tests {

/// Empty where `document` is as resources/schema/NAME.schema.json says, else what is wrong with it.
/// Checked by valijson, a general-purpose reader of JSON Schema, draft 7.
std::string faultBySchema(const std::string& name, const nlohmann::json& document);

} // namespace latemile::tests
