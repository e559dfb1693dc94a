// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <string_view>

namespace latemile {

/// A file of resources/schema.
struct SchemaText {
    std::string_view file; ///< "session.schema.json"
    std::string_view text;
};

/// All of them, put into the program when it is built: a document can be checked wherever the
/// program runs.
extern const std::span<const SchemaText> schemaTexts;

} // namespace latemile
