// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"

#include <cstdint>
#include <filesystem>
#include <initializer_list>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace latemile {

/// The shortest text that reads back as the same number, '.' as decimal point: "0.1", "-3",
/// "1e+20".
[[nodiscard]] std::string numberText(double value);
/// The finite number a text is, spaces around it allowed; nothing where it is anything else ("",
/// "nan", "inf", "1,5", "3 cm").
[[nodiscard]] std::optional<double> numberFrom(std::string_view text);

/// Whether a text must be written with a ' before it, lest a spreadsheet takes it for a formula.
[[nodiscard]] bool needsGuard(std::string_view cell);

/// The header of a table: its file's name and where each column stands.
struct CsvHeader {
    std::string name; ///< as errors name the file: "MARKS.csv"
    std::map<std::string, std::size_t, std::less<>> columns;
};

/// One row of a table. Cells are asked for by column; a column the file does not have reads as an
/// empty cell. All faults read "MARKS.csv line 12, column x_px: 'nan' is not a number."
class CsvRow {
public:
    CsvRow(std::shared_ptr<const CsvHeader> header, std::size_t line,
           std::vector<std::string> cells)
        : m_header(std::move(header)), m_line(line), m_cells(std::move(cells))
    {
    }
    [[nodiscard]] std::size_t line() const { return m_line; } ///< of the file; its first is 1
    [[nodiscard]] const std::string& cell(std::string_view column) const; ///< as it stands
    [[nodiscard]] bool isEmpty(std::string_view column) const; ///< nothing in it but spaces
    /// Without the ' that keeps a spreadsheet from reading a text as a formula.
    [[nodiscard]] std::string text(std::string_view column) const;
    /// A finite number; empty is a fault.
    [[nodiscard]] Outcome<double> number(std::string_view column) const;
    [[nodiscard]] Outcome<std::optional<double>> optionalNumber(std::string_view column) const;
    /// A whole number that an int64 holds, written without a fraction; empty is a fault.
    [[nodiscard]] Outcome<std::int64_t> integer(std::string_view column) const;
    /// A fault of this cell: `what` goes on after "line 12, column x_px: ".
    [[nodiscard]] tl::unexpected<Error> fault(std::string_view column, std::string_view what) const;

private:
    std::shared_ptr<const CsvHeader> m_header;
    std::size_t m_line;
    std::vector<std::string> m_cells;
};

/// A tidy table as RFC 4180 writes it: a header row, one row a line, commas, cells with commas,
/// quotes or line breaks quoted. UTF-8 with or without a byte order mark, lines end in LF or CRLF,
/// empty lines are passed over. A row of another length than the header's, a column named twice and
/// bad UTF-8 are faults.
class CsvTable {
public:
    static Outcome<CsvTable> read(const std::filesystem::path& file);
    /// `name` stands for the file in faults.
    static Outcome<CsvTable> parse(std::string_view text, std::string name);

    /// An Error that names the first of these columns the file does not have.
    [[nodiscard]] Outcome<void> need(std::initializer_list<std::string_view> columns) const;
    [[nodiscard]] bool hasColumn(std::string_view column) const;
    [[nodiscard]] const std::vector<CsvRow>& rows() const { return m_rows; }
    [[nodiscard]] const std::string& name() const { return m_header->name; }

private:
    std::shared_ptr<const CsvHeader> m_header;
    std::vector<CsvRow> m_rows;
};

/// Writes such a table, cell after cell: `csv.integer(7).text("near").number(0.5).endRow();`
class CsvText {
public:
    explicit CsvText(std::initializer_list<std::string_view> header);
    /// A person's text: quoted where it must be, and with a ' before what a spreadsheet would take
    /// for a formula (= + - @, tab, carriage return).
    CsvText& text(std::string_view cell);
    CsvText& number(double value);                ///< finite; as numberText gives it
    CsvText& number(std::optional<double> value); ///< an empty cell where there is none
    CsvText& integer(std::int64_t value);
    CsvText& empty();
    void endRow();
    [[nodiscard]] const std::string& whole() const { return m_text; }

private:
    void add(std::string_view cell);
    std::string m_text;
    bool m_rowBegun{};
};

} // namespace latemile
