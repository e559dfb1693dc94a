// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/sample_clips/group_table.hpp"
#include "tests/project_folders.hpp"

#include <algorithm>
#include <fstream>
#include <stdexcept>

namespace latemile::test {

namespace {
std::vector<std::string> cellsOf(const std::string& line)
{
    std::vector<std::string> cells(1);
    bool quoted = false;
    for (const char c : line) {
        if (c == '"') {
            quoted = !quoted;
        } else if (c == ',' && !quoted) {
            cells.emplace_back();
        } else if (c != '\r') {
            cells.back() += c;
        }
    }
    return cells;
}

std::vector<std::vector<std::string>> rowsOf(const std::string& name)
{
    std::ifstream in(tests::sourceFolder().string() + "/tests/outside/data/" + name);
    std::vector<std::vector<std::string>> rows;
    std::string line;
    std::getline(in, line); // the header
    while (std::getline(in, line)) {
        rows.push_back(cellsOf(line));
    }
    if (rows.empty()) {
        throw std::runtime_error("missing or empty: " + name);
    }
    return rows;
}

double numberOr(const std::string& cell, double otherwise)
{
    return cell.empty() ? otherwise : std::stod(cell);
}
} // namespace

std::vector<GroupValue> groupValues()
{
    std::vector<GroupValue> values;
    for (const auto& row : rowsOf("group_values.csv")) {
        values.push_back({row.at(0), row.at(1), std::stod(row.at(2)), numberOr(row.at(3), 0.0),
                          numberOr(row.at(4), 0.0), row.at(5)});
    }
    return values;
}

Range groupRange(const std::string& measure, double from, double to)
{
    Range range{1e9, -1e9};
    for (const auto& row : groupValues()) {
        if (row.measure == measure && row.sd > 0 && row.speed >= from && row.speed <= to) {
            range.low = std::min(range.low, row.mean - 2 * row.sd);
            range.high = std::max(range.high, row.mean + 2 * row.sd);
        }
    }
    if (range.low > range.high) {
        throw std::runtime_error("no such group: " + measure);
    }
    return range;
}

double bodyProportion(const std::string& quantity)
{
    for (const auto& row : rowsOf("body_proportions.csv")) {
        if (row.at(0) == quantity) {
            return std::stod(row.at(1));
        }
    }
    throw std::runtime_error("no such proportion: " + quantity);
}

} // namespace latemile::test
