// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/trc.hpp"
#include "tests/catch.hpp"
#include "tests/core/measures/worked_example.hpp"

#include <sstream>

using namespace latemile;
using namespace latemile::testing;

namespace {

std::vector<std::vector<std::string>> cellsOf(const std::string& text)
{
    std::vector<std::vector<std::string>> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);) {
        auto& cells = lines.emplace_back();
        std::size_t from = 0;
        for (auto tab = line.find('\t'); tab != std::string::npos; tab = line.find('\t', from)) {
            cells.push_back(line.substr(from, tab - from));
            from = tab + 1;
        }
        cells.push_back(line.substr(from));
    }
    return lines;
}

} // namespace

TEST_CASE("a TRC table has a row a frame with real times and millimetres", "[exchange][trc]")
{
    // The layout of the first five lines: common practice, no source.
    const auto clip = exampleClip();
    const auto prepared = prepare(clip);
    REQUIRE(prepared);
    const auto text = trcText(*prepared, clip.marking, "run.trc");
    REQUIRE(text);
    const auto lines = cellsOf(*text);
    REQUIRE(lines.size() == 6 + 127); // an empty line ends the head
    CHECK(lines[0] == std::vector<std::string>{"PathFileType", "4", "(X/Y/Z)", "run.trc"});
    CHECK(lines[2][2] == "127"); // frames
    CHECK(lines[2][3] == "9");   // points
    CHECK(lines[2][4] == "mm");
    CHECK(lines[3][2] == "near_ear");
    CHECK(lines[4][2] == "X1");
    const auto& contact = lines[6];
    CHECK(contact[0] == "51");
    CHECK(contact[1] == "0.100000");
    REQUIRE(contact.size() == 2 + 27);
    // By hand: ear 30 px ahead of the hip, 170 px above it, 0.4 cm a pixel.
    const auto number = [&contact](std::size_t i) { return std::stod(contact.at(i)); };
    CHECK(number(2) - number(2 + 12) == Approx(120.0).margin(0.002));
    CHECK(number(3) - number(3 + 12) == Approx(680.0).margin(0.002));
    CHECK(number(4) == 0.0);
}

TEST_CASE("every row of a TRC table is as long as its head", "[exchange][trc]")
{
    const auto clip = exampleClip();
    const auto prepared = prepare(clip);
    REQUIRE(prepared);
    const auto lines = cellsOf(trcText(*prepared, clip.marking, "run.trc").value());
    for (std::size_t i = 6; i < lines.size(); ++i) {
        CHECK(lines[i].size() == 29);
    }
}
