// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/scene/speed.hpp"

#include "core/decimal_text.hpp"

#include <charconv>
#include <cmath>
#include <cstdio>
#include <optional>

namespace latemile {
namespace {

constexpr double metresAMile = 1609.344; // international mile, exact
constexpr double slowest = 0.5;
constexpr double fastest = 13.0;

bool isPace(SpeedUnit unit)
{
    return unit == SpeedUnit::MinutesPerKm || unit == SpeedUnit::MinutesPerMile;
}

/// Metres a second of one unit; of a pace: the metres run in a pace of one second.
double factorOf(SpeedUnit unit)
{
    switch (unit) {
    case SpeedUnit::MinutesPerKm:
        return 1000.0;
    case SpeedUnit::MinutesPerMile:
        return metresAMile;
    case SpeedUnit::KmPerHour:
        return 1000.0 / 3600.0;
    case SpeedUnit::MilesPerHour:
        return metresAMile / 3600.0;
    case SpeedUnit::MetresPerSecond:
        break;
    }
    return 1.0;
}

std::optional<double> numberFrom(std::string_view text)
{
    std::string dotted(text);
    if (const auto comma = dotted.find(','); comma != std::string::npos) {
        dotted[comma] = '.';
    }
    double value{};
    const char* end = dotted.data() + dotted.size();
    const auto [at, fault] = std::from_chars(dotted.data(), end, value, std::chars_format::fixed);
    return fault == std::errc{} && at == end && std::isfinite(value) ? std::optional(value)
                                                                     : std::nullopt;
}

std::string_view trimmed(std::string_view text)
{
    const auto from = text.find_first_not_of(" \t");
    return from == std::string_view::npos
               ? std::string_view{}
               : text.substr(from, text.find_last_not_of(" \t") - from + 1);
}

/// Seconds a kilometre or mile.
std::optional<double> paceFrom(std::string_view text)
{
    const auto colon = text.find(':');
    if (colon == std::string_view::npos) {
        const auto minutes = numberFrom(text);
        return minutes ? std::optional(*minutes * 60.0) : std::nullopt;
    }
    const auto minutes = numberFrom(text.substr(0, colon));
    const auto seconds = numberFrom(text.substr(colon + 1));
    const bool whole = minutes && seconds && *seconds >= 0 && *seconds < 60;
    return whole ? std::optional(*minutes * 60.0 + *seconds) : std::nullopt;
}

} // namespace

std::string_view symbolOf(SpeedUnit unit)
{
    switch (unit) {
    case SpeedUnit::MinutesPerKm:
        return "min/km";
    case SpeedUnit::MinutesPerMile:
        return "min/mile";
    case SpeedUnit::KmPerHour:
        return "km/h";
    case SpeedUnit::MilesPerHour:
        return "mph";
    case SpeedUnit::MetresPerSecond:
        break;
    }
    return "m/s";
}

Outcome<double> speedFrom(std::string_view text, SpeedUnit unit)
{
    const auto typed = trimmed(text);
    const auto value = isPace(unit) ? paceFrom(typed) : numberFrom(typed);
    if (!value || *value <= 0) {
        return fail(Error::Kind::Inconsistent, "'" + std::string(typed) + "' is no speed in " +
                                                   std::string(symbolOf(unit)) + ": type it like " +
                                                   speedText(2.7, unit) + ".");
    }
    const double speed = isPace(unit) ? factorOf(unit) / *value : *value * factorOf(unit);
    if (speed < slowest || speed > fastest) {
        return fail(Error::Kind::Inconsistent, std::string(typed) + " " +
                                                   std::string(symbolOf(unit)) +
                                                   " is no running speed: look at the unit.");
    }
    return speed;
}

std::string speedText(double metresPerSecond, SpeedUnit unit)
{
    char text[32];
    if (isPace(unit)) {
        const auto seconds = std::lround(factorOf(unit) / metresPerSecond);
        std::snprintf(text, sizeof text, "%ld:%02ld", seconds / 60, seconds % 60);
    } else {
        const int decimals = unit == SpeedUnit::MetresPerSecond ? 2 : 1;
        return decimalText(metresPerSecond / factorOf(unit), decimals);
    }
    return text;
}

} // namespace latemile
