// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/decimal_text.hpp"

#include "tests/catch.hpp"

#include <clocale>
#include <string>

using latemile::decimalText;

TEST_CASE("a number is written with a point and the decimals asked for", "[text]")
{
    CHECK(decimalText(12.5, 2) == "12.50");
    CHECK(decimalText(-0.049, 1) == "-0.0");
    CHECK(decimalText(239.76, 0) == "240");
    // Halves that a double holds exactly go to the even digit: IEEE 754, roundTiesToEven.
    CHECK(decimalText(0.125, 2) == "0.12");
    CHECK(decimalText(0.375, 2) == "0.38");
    CHECK(decimalText(1.7976931348623157e308, 0).size() == 309);
}

TEST_CASE("a country that writes a decimal comma does not change a file", "[text]")
{
    const std::string before = std::setlocale(LC_NUMERIC, nullptr);
    for (const char* country : {"de_DE.UTF-8", "fr_FR.UTF-8", "nb_NO.UTF-8"}) {
        if (std::setlocale(LC_NUMERIC, country)) { // where the machine has it
            CHECK(decimalText(0.5, 1) == "0.5");
        }
    }
    std::setlocale(LC_NUMERIC, before.c_str());
}
