// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/libav_owners.hpp"

#include <cstddef>
#include <cstdint>
#include <map>

namespace latemile {

/// Decoded pictures kept within a budget of memory: when it is full, the one farthest from the play
/// head goes. Not thread-safe.
class HeldPictures {
public:
    explicit HeldPictures(std::size_t budgetBytes) : m_budget(budgetBytes) {}

    /// Where the coach is; nothing is dropped by it.
    void setHead(std::int64_t head) { m_head = head; }
    [[nodiscard]] std::int64_t head() const { return m_head; }

    /// Keeps at least one picture whatever its size.
    void insert(std::int64_t rank, const SharedAvFrame& picture);
    /// Empty when not held.
    [[nodiscard]] SharedAvFrame find(std::int64_t rank) const;
    [[nodiscard]] bool holds(std::int64_t rank) const { return m_pictures.contains(rank); }
    /// How many pictures like those held fit; 0 while nothing is held.
    [[nodiscard]] std::int64_t capacity() const;
    [[nodiscard]] std::size_t bytes() const { return m_bytes; }

private:
    void dropFarthest();

    std::size_t m_budget;
    std::size_t m_bytes = 0;
    std::int64_t m_head = 0;
    std::map<std::int64_t, SharedAvFrame> m_pictures; // by rank
};

} // namespace latemile
