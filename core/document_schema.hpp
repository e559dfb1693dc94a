// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/json_file.hpp"

#include <nlohmann/json_fwd.hpp>

#include <string>
#include <string_view>

namespace latemile {

/// Where a document does not follow resources/schema/NAME.schema.json (JSON Schema, draft 7) as it
/// was when the program was built: a JSON pointer (RFC 6901) and what is wrong there. Empty where
/// it follows. A name without a schema is told as a fault too.
[[nodiscard]] std::string faultBySchema(std::string_view name, const nlohmann::json& document);

/// The same of a document that is read, as a fault: "session.json, /clips/0/minute: ...". Our
/// readers say in a coach's words what they find wrong; call this after them, for what they let
/// pass. Fields the schema does not name are none: a later version may have written them. Null is
/// nothing.
Outcome<void> needSchema(const JsonField& document, std::string_view name);

} // namespace latemile
