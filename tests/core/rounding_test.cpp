// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/rounding.hpp"

#include "tests/catch.hpp"
#include "tests/project_folders.hpp"

#include <fstream>
#include <sstream>
#include <string>

using namespace latemile;

TEST_CASE("a value and its error are rounded together as the Particle Data Group does",
          "[text][outside]")
{
    // Particle Data Group, Review of Particle Physics, Introduction: the rule's own two examples
    // are the first two rows; the rest were worked from the rule with exact decimals. The rule is
    // from memory. The file prints values as a spreadsheet would; a missing trailing zero there is
    // read back as the number it stands for.
    std::ifstream file(tests::sourceFolder() / "tests/outside/data/rounding_to_error.csv");
    REQUIRE(file.is_open());
    std::string line;
    std::getline(file, line);
    int rows = 0;
    while (std::getline(file, line)) {
        std::istringstream cells(line);
        std::string value, error, valueRounded, errorRounded;
        std::getline(cells, value, ',');
        std::getline(cells, error, ',');
        std::getline(cells, valueRounded, ',');
        std::getline(cells, errorRounded, ',');
        CAPTURE(line);
        const RoundedPair pair = roundedTogether(std::stod(value), std::stod(error));
        CHECK(pair.value == valueRounded);
        CHECK(pair.error == errorRounded);
        ++rows;
    }
    CHECK(rows >= 12);
}

TEST_CASE("an error's leading digits 354, 355, 949 and 950 fall on the right sides", "[text]")
{
    // By hand from the rule.
    CHECK(decimalsFor(0.354) == 2);
    CHECK(decimalsFor(0.355) == 1);
    CHECK(decimalsFor(0.949) == 1);
    CHECK(decimalsFor(0.950) == 1);
    CHECK(roundedTogether(1.0, 0.950).error == "1.0");
    CHECK(decimalsFor(1.0) == 1);
    CHECK(decimalsFor(1000.0) == -2);
    CHECK(decimalsFor(0.001) == 4);
    CHECK(roundedTogether(12345.0, 1234.0) == RoundedPair{"12300", "1200"});
}

TEST_CASE("a rounded value never reads minus nothing", "[text]")
{
    CHECK(roundedTogether(-0.04, 1.2).value == "0.0");
    CHECK(fixedText(-0.4, 0) == "0");
}

TEST_CASE("an error below the last place shown is shown as one of that place", "[text]")
{
    CHECK(roundedTogether(252.4, 0.4, 0) == RoundedPair{"252", "1"});
    CHECK(roundedTogether(3.14159, 0.0, 2) == RoundedPair{"3.14", "0.00"});
}
