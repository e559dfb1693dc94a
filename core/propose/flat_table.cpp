// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/flat_table.hpp"

namespace latemile {

std::span<const std::uint8_t> FlatBytes::range(std::size_t place, std::size_t length) const
{
    if (place > m_bytes.size() || length > m_bytes.size() - place) {
        throw NetworkFault("a place outside the file");
    }
    return m_bytes.subspan(place, length);
}

FlatTable FlatTable::rootOf(const FlatBytes& bytes)
{
    return {bytes, bytes.at<std::uint32_t>(0)};
}

std::size_t FlatTable::placeOf(int field) const
{
    if (isEmpty()) {
        return 0;
    }
    const auto back = static_cast<std::int64_t>(m_bytes->at<std::int32_t>(m_place));
    const auto layout = static_cast<std::int64_t>(m_place) - back;
    if (layout < 0) {
        throw NetworkFault("a table's layout before the file");
    }
    const auto vtable = static_cast<std::size_t>(layout);
    const std::size_t entry = 4 + 2 * static_cast<std::size_t>(field);
    if (entry >= m_bytes->at<std::uint16_t>(vtable)) {
        return 0;
    }
    const auto offset = m_bytes->at<std::uint16_t>(vtable + entry);
    return offset == 0 ? 0 : m_place + offset;
}

std::size_t FlatTable::targetOf(int field) const
{
    const auto place = placeOf(field);
    return place == 0 ? 0 : place + m_bytes->at<std::uint32_t>(place);
}

FlatTable FlatTable::table(int field) const
{
    const auto target = targetOf(field);
    return target == 0 ? FlatTable() : FlatTable(*m_bytes, target);
}

std::vector<FlatTable> FlatTable::tables(int field) const
{
    const auto target = targetOf(field);
    std::vector<FlatTable> all;
    if (target == 0) {
        return all;
    }
    const auto count = m_bytes->at<std::uint32_t>(target);
    (void)m_bytes->range(target + 4, std::size_t{count} * 4); // before memory is asked for
    all.reserve(count);
    for (std::size_t k = 0; k < count; ++k) {
        const auto entry = target + 4 + 4 * k;
        all.push_back({*m_bytes, entry + m_bytes->at<std::uint32_t>(entry)});
    }
    return all;
}

std::vector<int> FlatTable::integers(int field) const
{
    const auto target = targetOf(field);
    if (target == 0) {
        return {};
    }
    const auto count = m_bytes->at<std::uint32_t>(target);
    const auto stored = m_bytes->range(target + 4, std::size_t{count} * 4);
    std::vector<int> all(count);
    if (count > 0) {
        std::memcpy(all.data(), stored.data(), stored.size());
    }
    return all;
}

std::span<const std::uint8_t> FlatTable::bytes(int field) const
{
    const auto target = targetOf(field);
    if (target == 0) {
        return {};
    }
    return m_bytes->range(target + 4, m_bytes->at<std::uint32_t>(target));
}

std::string FlatTable::text(int field) const
{
    const auto stored = bytes(field);
    return {stored.begin(), stored.end()};
}

} // namespace latemile
