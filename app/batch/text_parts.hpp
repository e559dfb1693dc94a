// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>
#include <vector>

namespace latemile::batch {

/// "a,b" between commas: "a" and "b"; at least one part, which may be empty.
inline std::vector<std::string_view> partsOf(std::string_view text, char between)
{
    std::vector<std::string_view> parts;
    while (true) {
        const auto end = text.find(between);
        parts.push_back(text.substr(0, end));
        if (end == std::string_view::npos) {
            return parts;
        }
        text.remove_prefix(end + 1);
    }
}

} // namespace latemile::batch
