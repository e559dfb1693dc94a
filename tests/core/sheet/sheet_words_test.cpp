// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sheet/sheet_rows.hpp"
#include "core/sheet/sheet_words.hpp"

#include "tests/catch.hpp"

using namespace latemile;

namespace {

ComparisonRow footAhead(double change, double halfWidth, Verdict verdict)
{
    ComparisonRow row;
    row.measure = "foot_ahead";
    row.fresh = {8, 17.47, 1.0};
    row.fatigued = {8, 17.47 + change, 1.0};
    row.change = change;
    row.halfWidth = halfWidth;
    row.verdict = verdict;
    row.sentence = "as compared";
    return row;
}

} // namespace

TEST_CASE("a ten-minute mile is 2.68 m/s, and its pace reads 10:00 a mile", "[sheet][outside]")
{
    // The international mile of 1609.344 m in 600 s: 2.68224 m/s exactly; 1000 m take 372.8 s.
    CHECK(paceWords(2.68224, Lengths::Inches) == "10:00");
    CHECK(paceWords(2.68224, Lengths::Centimetres) == "6:13");
    CHECK(speedWords(2.68224, 2.68224, {}, Lengths::Inches) == "6.0 mph (10:00 min/mile)");
    CHECK(speedWords(2.7, 2.7, {}, Lengths::Centimetres) == "2.70 m/s (6:10 min/km)");
}

TEST_CASE("seconds of a pace are rounded without ever reading sixty", "[sheet]")
{
    CHECK(paceWords(1000.0 / 299.7, Lengths::Centimetres) == "5:00"); // 4:59.7
    CHECK(paceWords(1000.0 / 305.2, Lengths::Centimetres) == "5:05");
}

TEST_CASE("speeds that differ are both told, a missing one is said to be missing", "[sheet]")
{
    CHECK(speedWords(2.7, 2.8, {}, Lengths::Centimetres) == "2.70 m/s fresh, 2.80 m/s fatigued");
    CHECK(speedWords({}, {}, {}, Lengths::Centimetres) == "speed not stated");
    CHECK(speedWords(2.7, {}, 1.0, Lengths::Centimetres) ==
          "2.70 m/s (6:10 min/km), incline 1.0 %");
    CHECK(speedWords(0.0, 0.0, {}, Lengths::Centimetres) == "0.00 m/s");
}

TEST_CASE("a date is told in words only where it is one", "[sheet]")
{
    CHECK(dateWords("2026-08-29") == "29 August 2026");
    CHECK(dateWords("2026-13-29") == "2026-13-29");
    CHECK(dateWords("late August") == "late August");
    CHECK(dateWords("2026-08-29T10") == "2026-08-29T10");
    CHECK(dateWords("").empty());
}

TEST_CASE("a reading takes its digits from its error and a true minus sign", "[sheet]")
{
    const Measure& foot = *findMeasure("foot_ahead");
    CHECK(readingWords(21.43, 1.1, foot, Lengths::Centimetres) == "21.4 cm");
    CHECK(readingWords(-21.43, 4.0, foot, Lengths::Centimetres) == "\u221221 cm");
    CHECK(readingWords(25.4, 1.0, foot, Lengths::Inches) == "10.0 in"); // an inch is 2.54 cm
    CHECK(readingWords(9.4, 3.6, *findMeasure("trunk_lean"), Lengths::Inches) == "9\u00b0");
}

TEST_CASE("a row's three numbers stand at the place of the change's error", "[sheet]")
{
    const SheetRow row =
        sheetRow(footAhead(4.46, 1.32, Verdict::ClearChange), "D", Lengths::Centimetres);
    CHECK(row.fresh == "17.5");
    CHECK(row.fatigued == "21.9");
    CHECK(row.change == "+4.5 \u00b1 1.3");
    CHECK(row.unit == "cm");
    CHECK(row.sentence == "as compared");
    const SheetRow coarse =
        sheetRow(footAhead(-12.0, 3.7, Verdict::ClearChange), "D", Lengths::Centimetres);
    CHECK(coarse.change == "\u221212 \u00b1 4");
    CHECK(coarse.fresh == "17");
}

TEST_CASE("in inches a row and its sentence are told anew", "[sheet]")
{
    // 4.46 / 2.54 = 1.756, 1.32 / 2.54 = 0.520: one digit by the rounding rule.
    const SheetRow row =
        sheetRow(footAhead(4.46, 1.32, Verdict::ClearChange), "D", Lengths::Inches);
    CHECK(row.change == "+1.8 \u00b1 0.5");
    CHECK(row.unit == "in");
    CHECK(row.sentence == "The foot lands 1.8 in further ahead of the hip.");
}

TEST_CASE("a clear change never looks as small as its error", "[sheet]")
{
    // On a sheet "+1.9 ± 1.9, clear change" read as a mistake; both get one digit more.
    CHECK(sheetRow(footAhead(1.93, 1.88, Verdict::ClearChange), "D", Lengths::Centimetres).change ==
          "+1.93 \u00b1 1.88");
    CHECK(sheetRow(footAhead(1.86, 1.88, Verdict::WithinError), "D", Lengths::Centimetres).change ==
          "+1.9 \u00b1 1.9");
}

TEST_CASE("a change that was refused is not told in figures", "[sheet]")
{
    const auto verdict = GENERATE(Verdict::NotComparable, Verdict::TooFewSteps);
    CHECK(sheetRow(footAhead(4.5, 1.3, verdict), "D", Lengths::Centimetres).change == "\u2013");
}

TEST_CASE("of a measure's rows the sheet takes both feet, else the near foot", "[sheet]")
{
    Comparison comparison;
    for (const std::optional<Foot> foot :
         {std::optional(Foot::Left), std::optional(Foot::Right), std::optional<Foot>()}) {
        auto row = footAhead(1.0, 1.0, Verdict::WithinError);
        row.foot = foot;
        comparison.rows.push_back(row);
    }
    CHECK_FALSE(rowsForSheet(comparison, {"foot_ahead"}, Foot::Right).front().foot);
    comparison.rows.pop_back();
    CHECK(rowsForSheet(comparison, {"foot_ahead"}, Foot::Right).front().foot == Foot::Right);
    CHECK(rowsForSheet(comparison, {"foot_ahead"}, Foot::Left).front().foot == Foot::Left);
    CHECK(rowsForSheet(comparison, {"knee_flex_contact"}, Foot::Left).empty());
}
