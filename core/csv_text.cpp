// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/csv.hpp"

#include <array>
#include <charconv>

namespace latemile {

std::string numberText(double value)
{
    std::array<char, 32> text{};
    const auto end = std::to_chars(text.data(), text.data() + text.size(), value).ptr;
    return {text.data(), end};
}

bool needsGuard(std::string_view cell)
{
    // A text that begins with the guard itself is guarded too, so that reading can always take
    // exactly one off.
    return !cell.empty() && std::string_view("=+-@\t\r'").find(cell.front()) != std::string::npos;
}

CsvText::CsvText(std::initializer_list<std::string_view> header)
{
    for (const auto column : header) {
        add(column);
    }
    endRow();
}

CsvText& CsvText::text(std::string_view cell)
{
    std::string guarded = (needsGuard(cell) ? "'" : "") + std::string(cell);
    if (guarded.find_first_of(",\"\r\n") == std::string::npos) {
        add(guarded);
        return *this;
    }
    std::string quoted = "\"";
    for (const char c : guarded) {
        quoted += c == '"' ? "\"\"" : std::string(1, c);
    }
    add(quoted + '"');
    return *this;
}

CsvText& CsvText::number(double value)
{
    add(numberText(value));
    return *this;
}

CsvText& CsvText::number(std::optional<double> value)
{
    return value ? number(*value) : empty();
}

CsvText& CsvText::integer(std::int64_t value)
{
    add(std::to_string(value));
    return *this;
}

CsvText& CsvText::empty()
{
    add({});
    return *this;
}

void CsvText::endRow()
{
    m_text += '\n';
    m_rowBegun = false;
}

void CsvText::add(std::string_view cell)
{
    if (m_rowBegun) {
        m_text += ',';
    }
    m_text += cell;
    m_rowBegun = true;
}

} // namespace latemile
