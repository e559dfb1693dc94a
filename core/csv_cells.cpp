// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/csv_cells.hpp"

#include <boost/locale/utf.hpp>

#include <algorithm>

namespace latemile {

/// Nothing where the text is UTF-8 without a NUL, else the place of the first byte that is not.
std::optional<std::size_t> firstBadByte(std::string_view text)
{
    using Utf8 = boost::locale::utf::utf_traits<char>;
    for (const auto* at = text.begin(); at != text.end();) {
        const auto* const from = at;
        const auto point = Utf8::decode(at, text.end());
        if (point == boost::locale::utf::illegal || point == boost::locale::utf::incomplete ||
            point == 0) {
            return static_cast<std::size_t>(from - text.begin());
        }
    }
    return std::nullopt;
}

Outcome<std::vector<std::string>> CsvCells::nextRow()
{
    m_rowLine = m_line;
    std::vector<std::string> cells;
    while (true) {
        ASSIGN_OR_RETURN(auto cell, nextCell());
        cells.push_back(std::move(cell));
        if (m_rest.empty()) {
            return cells;
        }
        const bool more = m_rest.front() == ',';
        passOver(more ? 1 : lineEnd());
        if (!more) {
            return cells;
        }
    }
}

std::size_t CsvCells::lineEnd() const
{
    if (m_rest.starts_with("\r\n")) {
        return 2;
    }
    return m_rest.starts_with('\n') ? 1 : 0;
}

void CsvCells::passOver(std::size_t count)
{
    m_line += static_cast<std::size_t>(
        std::count(m_rest.begin(), m_rest.begin() + static_cast<std::ptrdiff_t>(count), '\n'));
    m_rest.remove_prefix(count);
}

Outcome<std::string> CsvCells::nextCell()
{
    if (m_rest.starts_with('"')) {
        return quotedCell();
    }
    auto end = std::min(m_rest.find_first_of(",\n"), m_rest.size());
    if (end < m_rest.size() && m_rest[end] == '\n' && end > 0 && m_rest[end - 1] == '\r') {
        --end;
    }
    std::string cell(m_rest.substr(0, end));
    if (cell.find('"') != std::string::npos) {
        return fault("a quotation mark stands inside a cell that does not begin with one");
    }
    passOver(end);
    return cell;
}

Outcome<std::string> CsvCells::quotedCell()
{
    std::string cell;
    std::size_t at = 1;
    while (true) {
        const auto quote = m_rest.find('"', at);
        if (quote == std::string_view::npos) {
            return fault("a quotation mark is opened and never closed");
        }
        cell += m_rest.substr(at, quote - at);
        at = quote + 1;
        if (!m_rest.substr(at).starts_with('"')) {
            break;
        }
        cell += '"';
        ++at;
    }
    passOver(at);
    if (!m_rest.empty() && m_rest.front() != ',' && lineEnd() == 0) {
        return fault("something stands after a closing quotation mark");
    }
    return cell;
}

tl::unexpected<Error> CsvCells::fault(const std::string& what) const
{
    return fail(Error::Kind::Damaged,
                m_name + " line " + std::to_string(m_rowLine) + ": " + what + ".");
}

} // namespace latemile
