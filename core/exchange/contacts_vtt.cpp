// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/contacts_vtt.hpp"

#include "core/decimal_text.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

std::string twoDigits(std::int64_t number)
{
    return (number < 10 ? "0" : "") + std::to_string(number);
}

/// "00:00:01.250"; hours always, which the standard allows to be left out.
std::string stampOf(std::int64_t milliseconds)
{
    const auto thousandths = std::to_string(1000 + milliseconds % 1000).substr(1);
    const auto seconds = milliseconds / 1000;
    return twoDigits(seconds / 3600) + ":" + twoDigits(seconds / 60 % 60) + ":" +
           twoDigits(seconds % 60) + "." + thousandths;
}

std::string groundTime(const Stance& stance)
{
    if (!stance.toeOff) {
        return "contact";
    }
    const double milliseconds = 1000.0 * (*stance.toeOff - stance.contact).count();
    return "on the ground " + decimalText(milliseconds, 0) + " ms";
}

} // namespace

FilmClock steadyClock(Seconds from, double slowMotion, Seconds length)
{
    return [=](Seconds real) { return std::clamp((real - from) * slowMotion, Seconds{0}, length); };
}

std::string contactsVtt(const std::vector<Stance>& stances, const FilmClock& clock)
{
    constexpr Seconds withoutToeOff{0.1};
    const auto playing = [&clock](Seconds real) {
        return static_cast<std::int64_t>(std::llround(1000.0 * clock(real).count()));
    };
    std::string text = "WEBVTT\n";
    for (const auto& stance : stances) {
        const auto from = playing(stance.contact);
        const auto to = playing(stance.toeOff.value_or(stance.contact + withoutToeOff));
        if (from < to) {
            text += "\n" + stampOf(from) + " --> " + stampOf(to) + "\n" +
                    (stance.foot == Foot::Left ? "Left foot: " : "Right foot: ") +
                    groundTime(stance) + "\n";
        }
    }
    return text;
}

} // namespace latemile
