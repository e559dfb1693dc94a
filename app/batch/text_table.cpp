// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/text_table.hpp"

#include <algorithm>
#include <cassert>

namespace latemile::batch {

namespace {

/// Characters, not bytes: "±" is one.
std::size_t widthOf(const std::string& cell)
{
    return static_cast<std::size_t>(std::count_if(cell.begin(), cell.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
    }));
}

} // namespace

TextTable::TextTable(std::vector<std::string> columns)
{
    for (auto& column : columns) {
        m_flushRight.push_back(column.starts_with('>'));
        column.erase(0, m_flushRight.back() ? 1 : 0);
    }
    m_rows.push_back(std::move(columns));
}

void TextTable::addRow(std::vector<std::string> cells)
{
    assert(cells.size() == m_flushRight.size());
    m_rows.push_back(std::move(cells));
}

std::string TextTable::text() const
{
    std::vector<std::size_t> widths(m_flushRight.size());
    for (const auto& row : m_rows) {
        for (std::size_t i = 0; i < row.size(); ++i) {
            widths[i] = std::max(widths[i], widthOf(row[i]));
        }
    }
    std::string text;
    for (const auto& row : m_rows) {
        std::string line;
        for (std::size_t i = 0; i < row.size(); ++i) {
            const std::string space(widths[i] - widthOf(row[i]), ' ');
            line += (i > 0 ? "  " : "") + (m_flushRight[i] ? space + row[i] : row[i] + space);
        }
        line.erase(line.find_last_not_of(' ') + 1);
        text += line + "\n";
    }
    return text;
}

} // namespace latemile::batch
