// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/held_pictures.hpp"

#include <algorithm>

namespace latemile {

namespace {

std::size_t bytesOf(const AVFrame& frame)
{
    std::size_t bytes = 0;
    for (const auto* buffer : frame.buf) {
        bytes += buffer ? static_cast<std::size_t>(buffer->size) : 0;
    }
    return bytes;
}

} // namespace

void HeldPictures::insert(std::int64_t rank, const SharedAvFrame& picture)
{
    if (!m_pictures.emplace(rank, picture).second) {
        return;
    }
    m_bytes += bytesOf(*picture);
    while (m_bytes > m_budget && m_pictures.size() > 1) {
        dropFarthest();
    }
}

void HeldPictures::dropFarthest()
{
    const auto first = m_pictures.begin();
    const auto last = std::prev(m_pictures.end());
    const bool firstIsFarther = m_head - first->first >= last->first - m_head;
    const auto farthest = firstIsFarther ? first : last;
    m_bytes -= bytesOf(*farthest->second);
    m_pictures.erase(farthest);
}

SharedAvFrame HeldPictures::find(std::int64_t rank) const
{
    const auto found = m_pictures.find(rank);
    return found == m_pictures.end() ? nullptr : found->second;
}

std::int64_t HeldPictures::capacity() const
{
    if (m_pictures.empty()) {
        return 0;
    }
    const auto each = std::max<std::size_t>(1, m_bytes / m_pictures.size());
    return static_cast<std::int64_t>(m_budget / each);
}

} // namespace latemile
