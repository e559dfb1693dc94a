// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/csv.hpp"

#include "tests/catch.hpp"

#include <cmath>
#include <limits>
#include <random>

using namespace latemile;

namespace {

CsvTable table(std::string_view text)
{
    return CsvTable::parse(text, "MARKS.csv").value();
}

std::string faultOf(std::string_view text)
{
    const auto parsed = CsvTable::parse(text, "MARKS.csv");
    return parsed ? "no fault" : parsed.error().sentence;
}

} // namespace

TEST_CASE("columns are found by name in any order", "[csv]")
{
    const auto marks = table("x_px,frame\n1.5,7\n");
    REQUIRE(marks.rows().size() == 1);
    CHECK(marks.rows()[0].integer("frame").value() == 7);
    CHECK(marks.rows()[0].number("x_px").value() == 1.5);
    CHECK(marks.rows()[0].isEmpty("se_px"));
    CHECK(marks.hasColumn("frame"));
    CHECK_FALSE(marks.hasColumn("se_px"));
}

TEST_CASE("cells are taken apart as RFC 4180 writes them", "[csv][outside]")
{
    // RFC 4180 section 2, rules 2 (last line without an end), 5 and 6 (quoted cells, with a line
    // break inside) and 7 (a doubled quotation mark): its own examples.
    const auto rows = table("a,b,c\r\n\"aaa\",\"b \r\nbb\",\"ccc\"\r\nzzz,\"b\"\"bb\",xxx").rows();
    REQUIRE(rows.size() == 2);
    CHECK(rows[0].cell("a") == "aaa");
    CHECK(rows[0].cell("b") == "b \r\nbb");
    CHECK(rows[0].cell("c") == "ccc");
    CHECK(rows[1].cell("b") == "b\"bb");
    CHECK(rows[1].cell("c") == "xxx");
    CHECK(rows[1].line() == 4);
}

TEST_CASE("a byte order mark, spaces about names and empty lines do not disturb", "[csv]")
{
    const auto marks = table("\xEF\xBB\xBF frame , x_px\r\n\r\n 3 , 2 \r\n\r\n");
    REQUIRE(marks.rows().size() == 1);
    CHECK(marks.rows()[0].integer("frame").value() == 3);
    CHECK(marks.rows()[0].line() == 3);
}

TEST_CASE("a cell that is no number names file, line and column", "[csv]")
{
    const auto row = table("frame,x_px,se_px\n1,nan,\n").rows()[0];
    CHECK(row.number("x_px").error().sentence ==
          "MARKS.csv line 2, column x_px: 'nan' is not a number.");
    CHECK(row.number("se_px").error().sentence ==
          "MARKS.csv line 2, column se_px: a number is missing.");
    CHECK_FALSE(row.optionalNumber("se_px").value());
    const auto text = GENERATE(as<std::string>{}, "inf", "-inf", "1e999", "1.5 cm", "0x10", "++1",
                               "+-1", "1 2", "\"1,5\"", "+", "-");
    CAPTURE(text);
    CHECK_FALSE(table("n\n" + text + "\n").rows()[0].number("n"));
    CHECK_FALSE(table("n\n" + text + "\n").rows()[0].optionalNumber("n"));
}

TEST_CASE("a whole number is nothing else", "[csv]")
{
    const auto text =
        GENERATE(as<std::string>{}, "3.9", "1e3", "true", "9223372036854775808", "3.0");
    CAPTURE(text);
    CHECK_FALSE(table("n\n" + text + "\n").rows()[0].integer("n"));
    CHECK(table("n\n-12\n").rows()[0].integer("n").value() == -12);
    CHECK(table("n\n+12\n").rows()[0].integer("n").value() == 12);
}

TEST_CASE("a damaged table is refused with the line it is damaged on", "[csv]")
{
    CHECK(faultOf("") == "MARKS.csv line 1: the row of column names is missing.");
    CHECK(faultOf("a,b\n1,2\n1,2,3\n") ==
          "MARKS.csv line 3: the row has 3 cells, the header names 2 columns.");
    CHECK(faultOf("a,b\n1\n") ==
          "MARKS.csv line 2: the row has 1 cells, the header names 2 columns.");
    CHECK(faultOf("a,a\n1,2\n") == "MARKS.csv line 1: the column a is named twice.");
    CHECK(faultOf("a\n\"open\n\n") ==
          "MARKS.csv line 2: a quotation mark is opened and never closed.");
    CHECK(faultOf("a\nb\"c\n").find("line 2: a quotation mark") != std::string::npos);
    CHECK(faultOf("a\n\"b\"c\n").find("line 2: something stands") != std::string::npos);
    CHECK(faultOf("a\nb\n\xFF\xFE\n").find("line 3: this is no text in UTF-8") !=
          std::string::npos);
    CHECK(faultOf(std::string_view("a\nb\0\n", 5)).find("line 2: this is no text") !=
          std::string::npos);
    CHECK(faultOf("a;b\n1;2\n").find("semicolons") != std::string::npos);
    CHECK(table("frame\n1\n").need({"frame", "x_px"}).error().sentence ==
          "MARKS.csv line 1: the column x_px is missing.");
    CHECK(table("frame\n1\n").need({"frame"}));
}

TEST_CASE("a written number reads back as the same number", "[csv]")
{
    // The property IEEE 754 asks of a shortest decimal form, over numbers of all sizes.
    std::mt19937_64 random(7);
    std::uniform_real_distribution<double> mantissa(-1.0, 1.0);
    std::uniform_int_distribution<int> exponent(-1000, 1000);
    for (int i = 0; i < 1000; ++i) {
        const double value = std::ldexp(mantissa(random), exponent(random));
        CHECK(numberFrom(numberText(value)) == value);
    }
    CHECK(numberText(0.1) == "0.1");
    CHECK(numberText(-3.0) == "-3");
    CHECK(numberFrom(" 2.5 ") == 2.5);
    CHECK_FALSE(numberFrom(""));
}

TEST_CASE("a text a spreadsheet would take for a formula is guarded and a number is not", "[csv]")
{
    CsvText csv({"note", "value"});
    csv.text("=1+1").number(-2.5).endRow();
    csv.text("- knee").empty().endRow();
    CHECK(csv.whole() == "note,value\n'=1+1,-2.5\n'- knee,\n");
}

TEST_CASE("every text comes back as it was written", "[csv]")
{
    const auto text =
        GENERATE(as<std::string>{}, "plain", "a,b", "a \"b\" c", "two\nlines", "two\r\nlines",
                 "=sum(A1)", "'=sum", "'quoted'", "@x", "\ttab", "\rreturn", "Zo\xC3\xAB", "");
    CAPTURE(text);
    CsvText csv({"n", "note"});
    csv.integer(1).text(text).endRow();
    CHECK(table(csv.whole()).rows().at(0).text("note") == text);
}
