// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sheet/sheet_words.hpp"

#include "core/rounding.hpp"

#include <array>
#include <cctype>
#include <cmath>
#include <cstdio>

namespace latemile {
namespace {

constexpr double metresPerMile = 1609.344; // the international mile, exact
constexpr double cmPerInch = 2.54;         // exact
constexpr std::string_view minus = "\u2212";

bool isLength(Unit unit)
{
    return unit == Unit::Centimetre || unit == Unit::Metre;
}

std::string speedNumber(double metresPerSecond, Lengths lengths)
{
    return lengths == Lengths::Centimetres
               ? fixedText(metresPerSecond, 2) + " m/s"
               : fixedText(metresPerSecond * 3600.0 / metresPerMile, 1) + " mph";
}

std::string speedAndPace(double metresPerSecond, Lengths lengths)
{
    if (!(metresPerSecond > 0.0)) {
        return speedNumber(metresPerSecond, lengths);
    }
    return speedNumber(metresPerSecond, lengths) + " (" + paceWords(metresPerSecond, lengths) +
           (lengths == Lengths::Centimetres ? " min/km)" : " min/mile)");
}

} // namespace

std::string dateWords(std::string_view isoDate)
{
    static constexpr std::array months{"January",   "February", "March",    "April",
                                       "May",       "June",     "July",     "August",
                                       "September", "October",  "November", "December"};
    int year{};
    int month{};
    int day{};
    int used{};
    const std::string text(isoDate);
    const int read = std::sscanf(text.c_str(), "%4d-%2d-%2d%n", &year, &month, &day, &used);
    if (read != 3 || used != 10 || text.size() != 10 || month < 1 || month > 12 || day < 1 ||
        day > 31) {
        return text;
    }
    return std::to_string(day) + ' ' + months[static_cast<std::size_t>(month - 1)] + ' ' +
           std::to_string(year);
}

std::string minuteWords(std::optional<double> minute)
{
    if (!minute) {
        return {};
    }
    const bool whole = std::abs(*minute - std::round(*minute)) < 0.05;
    return "minute " + fixedText(*minute, whole ? 0 : 1);
}

std::string paceWords(double metresPerSecond, Lengths lengths)
{
    const double distance = lengths == Lengths::Centimetres ? 1000.0 : metresPerMile;
    const auto seconds = std::llround(distance / metresPerSecond);
    std::string rest = std::to_string(seconds % 60);
    return std::to_string(seconds / 60) + ':' + (rest.size() < 2 ? "0" + rest : rest);
}

std::string speedWords(std::optional<double> fresh, std::optional<double> fatigued,
                       std::optional<double> inclinePercent, Lengths lengths)
{
    std::string words = "speed not stated";
    if (fresh && fatigued && speedNumber(*fresh, lengths) != speedNumber(*fatigued, lengths)) {
        words = speedNumber(*fresh, lengths) + " fresh, " + speedNumber(*fatigued, lengths) +
                " fatigued";
    } else if (fresh || fatigued) {
        words = speedAndPace(fresh ? *fresh : *fatigued, lengths);
    }
    if (inclinePercent && std::abs(*inclinePercent) >= 0.05) {
        words += ", incline " + printed(fixedText(*inclinePercent, 1)) + " %";
    }
    return words;
}

std::string unitWords(Unit unit, Lengths lengths)
{
    if (isLength(unit) && lengths == Lengths::Inches) {
        return "in";
    }
    if (unit == Unit::Degree) {
        return "\u00b0";
    }
    return unit == Unit::None ? std::string() : std::string(symbolOf(unit));
}

double inLengths(double value, Unit unit, Lengths lengths)
{
    if (lengths == Lengths::Centimetres || !isLength(unit)) {
        return value;
    }
    return (unit == Unit::Metre ? 100.0 * value : value) / cmPerInch;
}

int mostDecimals(const Measure& measure, Lengths lengths)
{
    // A tenth of an inch for both: no mark on a picture is better than that.
    return lengths == Lengths::Inches && isLength(measure.unit) ? 1 : measure.decimals;
}

std::string printed(std::string_view number, Sign sign)
{
    const bool negative = !number.empty() && number.front() == '-';
    const bool nothing = number.find_first_of("123456789") == std::string_view::npos;
    if (negative) {
        return std::string(minus) + std::string(number.substr(1));
    }
    return (sign == Sign::Always && !nothing ? "+" : "") + std::string(number);
}

std::string readingWords(double value, std::optional<double> se, const Measure& measure,
                         Lengths lengths)
{
    const double shown = inLengths(value, measure.unit, lengths);
    const double error = inLengths(se.value_or(0.0), measure.unit, lengths);
    const std::string unit = unitWords(measure.unit, lengths);
    const std::string number =
        printed(roundedTogether(shown, error, mostDecimals(measure, lengths)).value);
    return measure.unit == Unit::Degree || unit.empty() ? number + unit : number + ' ' + unit;
}

std::string changeSentence(double change, double halfWidth, const Measure& measure, Lengths lengths)
{
    std::string words(change > 0.0 ? measure.more : measure.less);
    const std::string amount = readingWords(std::abs(change), halfWidth, measure, lengths);
    if (const auto gap = words.find("{}"); gap != std::string::npos) {
        words.replace(gap, 2, amount);
    }
    if (!words.empty()) {
        words.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(words.front())));
        words += '.';
    }
    return words;
}

} // namespace latemile
