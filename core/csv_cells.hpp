// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace latemile {

/// Nothing where the text is UTF-8 without a NUL, else the place of the first byte that is not.
[[nodiscard]] std::optional<std::size_t> firstBadByte(std::string_view text);

/// Takes a text apart into rows of cells (RFC 4180) and keeps count of the file's lines. Looks at
/// the text and the name it is given, which must outlive it.
class CsvCells {
public:
    CsvCells(std::string_view text, const std::string& name) : m_rest(text), m_name(name) {}

    [[nodiscard]] bool atEnd() const { return m_rest.empty(); }
    /// Of the row read last: the line it begins on.
    [[nodiscard]] std::size_t line() const { return m_rowLine; }
    Outcome<std::vector<std::string>> nextRow();

private:
    [[nodiscard]] std::size_t lineEnd() const; ///< bytes of the line end that stands next; 0: none
    void passOver(std::size_t count);
    Outcome<std::string> nextCell();
    Outcome<std::string> quotedCell();
    [[nodiscard]] tl::unexpected<Error> fault(const std::string& what) const;

    std::string_view m_rest;
    const std::string& m_name;
    std::size_t m_line{1};
    std::size_t m_rowLine{1};
};

} // namespace latemile
