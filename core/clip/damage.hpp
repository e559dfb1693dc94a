// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/presentation.hpp"

#include <algorithm>
#include <cstdint>
#include <vector>

namespace latemile {

/// Where a file was found damaged. A picture is not to be trusted from the damage on until the
/// next key picture, because each builds on the one before.
class Damage {
public:
    void add(std::int64_t firstOrdinal, std::int64_t lastOrdinal)
    {
        const auto isKnown = [&](const Span& span) {
            return span.first <= firstOrdinal && lastOrdinal <= span.last;
        };
        if (std::none_of(m_spans.begin(), m_spans.end(), isKnown)) {
            m_spans.push_back({firstOrdinal, lastOrdinal});
        }
    }
    [[nodiscard]] bool touches(std::int64_t ordinal, const Presentation& order) const
    {
        return std::any_of(m_spans.begin(), m_spans.end(), [&](const Span& span) {
            return ordinal >= span.first && order.keyOf(ordinal) <= span.last;
        });
    }

private:
    struct Span {
        std::int64_t first;
        std::int64_t last;
    };
    std::vector<Span> m_spans;
};

} // namespace latemile
