// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/csv.hpp"

#include "core/csv_cells.hpp"
#include "core/whole_file.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace latemile {

namespace {

constexpr std::string_view byteOrderMark = "\xEF\xBB\xBF";

std::string_view trimmed(std::string_view text)
{
    const auto from = text.find_first_not_of(" \t");
    if (from == std::string_view::npos) {
        return {};
    }
    return text.substr(from, text.find_last_not_of(" \t") - from + 1);
}

/// The whole text as the number type, or nothing.
template <class Number>
std::optional<Number> wholeNumber(std::string_view text)
{
    text = trimmed(text);
    if (text.size() > 1 && text.front() == '+' && text[1] != '-') {
        text.remove_prefix(1); // from_chars knows no plus sign
    }
    Number value{};
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (fault != std::errc{} || end != text.data() + text.size() || text.empty()) {
        return std::nullopt;
    }
    return value;
}

/// The text as a fault may show it: short and on one line.
std::string shown(std::string_view cell)
{
    std::string text(cell.substr(0, 40));
    std::replace_if(
        text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < ' '; }, ' ');
    return "'" + text + (cell.size() > 40 ? "..." : "") + "'";
}

bool isBlank(const std::vector<std::string>& cells)
{
    return cells.size() == 1 && trimmed(cells.front()).empty();
}

Outcome<CsvHeader> headerFrom(const std::vector<std::string>& cells, const std::string& name)
{
    if (isBlank(cells)) {
        return fail(Error::Kind::Damaged, name + " line 1: the row of column names is missing.");
    }
    if (cells.size() == 1 && cells.front().find(';') != std::string::npos) {
        return fail(Error::Kind::Unsupported,
                    name + " line 1: the columns are parted by semicolons; save the table with "
                           "commas and '.' decimals.");
    }
    CsvHeader header{name, {}};
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const std::string column(trimmed(cells[i]));
        if (!header.columns.emplace(column, i).second) {
            return fail(Error::Kind::Damaged,
                        name + " line 1: the column " + column + " is named twice.");
        }
    }
    return header;
}

} // namespace

std::optional<double> numberFrom(std::string_view text)
{
    const auto value = wholeNumber<double>(text);
    return value && std::isfinite(*value) ? value : std::nullopt;
}

const std::string& CsvRow::cell(std::string_view column) const
{
    static const std::string nothing;
    const auto found = m_header->columns.find(column);
    return found == m_header->columns.end() ? nothing : m_cells[found->second];
}

bool CsvRow::isEmpty(std::string_view column) const
{
    return trimmed(cell(column)).empty();
}

std::string CsvRow::text(std::string_view column) const
{
    std::string_view text = cell(column);
    if (text.starts_with('\'') && needsGuard(text.substr(1))) {
        text.remove_prefix(1);
    }
    return std::string(text);
}

Outcome<double> CsvRow::number(std::string_view column) const
{
    if (isEmpty(column)) {
        return fault(column, "a number is missing");
    }
    const auto value = numberFrom(cell(column));
    return value ? Outcome<double>(*value)
                 : fault(column, shown(cell(column)) + " is not a number");
}

Outcome<std::optional<double>> CsvRow::optionalNumber(std::string_view column) const
{
    if (isEmpty(column)) {
        return std::optional<double>{};
    }
    ASSIGN_OR_RETURN(const double value, number(column));
    return std::optional<double>(value);
}

Outcome<std::int64_t> CsvRow::integer(std::string_view column) const
{
    if (isEmpty(column)) {
        return fault(column, "a whole number is missing");
    }
    const auto value = wholeNumber<std::int64_t>(cell(column));
    return value ? Outcome<std::int64_t>(*value)
                 : fault(column, shown(cell(column)) + " is not a whole number");
}

tl::unexpected<Error> CsvRow::fault(std::string_view column, std::string_view what) const
{
    return fail(Error::Kind::Damaged, m_header->name + " line " + std::to_string(m_line) +
                                          ", column " + std::string(column) + ": " +
                                          std::string(what) + ".");
}

Outcome<CsvTable> CsvTable::read(const std::filesystem::path& file)
{
    ASSIGN_OR_RETURN(const auto text, readWholeFile(file));
    return parse(text, file.string());
}

Outcome<CsvTable> CsvTable::parse(std::string_view text, std::string name)
{
    if (const auto bad = firstBadByte(text)) {
        const auto line = 1 + std::count(text.begin(), text.begin() + *bad, '\n');
        return fail(Error::Kind::Damaged, name + " line " + std::to_string(line) +
                                              ": this is no text in UTF-8; save the table as "
                                              "CSV in UTF-8.");
    }
    if (text.starts_with(byteOrderMark)) {
        text.remove_prefix(byteOrderMark.size());
    }
    CsvCells reader(text, name);
    ASSIGN_OR_RETURN(const auto names, reader.nextRow());
    ASSIGN_OR_RETURN(auto header, headerFrom(names, name));
    CsvTable table;
    table.m_header = std::make_shared<const CsvHeader>(std::move(header));
    while (!reader.atEnd()) {
        ASSIGN_OR_RETURN(auto cells, reader.nextRow());
        if (isBlank(cells)) {
            continue;
        }
        if (cells.size() != names.size()) {
            return fail(Error::Kind::Damaged, name + " line " + std::to_string(reader.line()) +
                                                  ": the row has " + std::to_string(cells.size()) +
                                                  " cells, the header names " +
                                                  std::to_string(names.size()) + " columns.");
        }
        table.m_rows.emplace_back(table.m_header, reader.line(), std::move(cells));
    }
    return table;
}

Outcome<void> CsvTable::need(std::initializer_list<std::string_view> columns) const
{
    for (const auto column : columns) {
        if (!hasColumn(column)) {
            return fail(Error::Kind::Damaged,
                        name() + " line 1: the column " + std::string(column) + " is missing.");
        }
    }
    return {};
}

bool CsvTable::hasColumn(std::string_view column) const
{
    return m_header->columns.contains(column);
}

} // namespace latemile
