// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace latemile::batch {

/// Columns of text for a terminal, each as wide as its widest cell. A column whose name begins with
/// '>' is set flush right, as numbers are.
class TextTable {
public:
    explicit TextTable(std::vector<std::string> columns);
    void addRow(std::vector<std::string> cells); ///< one cell a column
    [[nodiscard]] std::string text() const;      ///< the header, the rows; each with a line end

private:
    std::vector<bool> m_flushRight;
    std::vector<std::vector<std::string>> m_rows; ///< the first is the header
};

} // namespace latemile::batch
