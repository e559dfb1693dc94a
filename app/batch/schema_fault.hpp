// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <nlohmann/json_fwd.hpp>

#include <string>

namespace latemile::batch {

/// Where a document does not follow resources/schema/NAME.schema.json (JSON Schema, draft 7); empty
/// where it does. A schema that is not there is told as a fault too.
[[nodiscard]] std::string faultBySchema(const std::string& name, const nlohmann::json& document);

} // namespace latemile::batch
