// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/real_time.hpp"

#include "core/clip/numbers_in_words.hpp"

#include <charconv>
#include <cmath>
#include <cstring>

namespace latemile {

namespace {

constexpr double largestRate = 100000;
/// A stated rate this near the file's own means the file's own: cameras that say 240 take 239.76,
/// and phones drop a frame now and then.
constexpr double sameRate = 0.02;
/// Phones write the rate they aimed for into ordinary clips too, and fall short of it in poor
/// light; only a factor this large is slow motion.
constexpr double leastFactorInFile = 1.5;

std::optional<double> numberIn(const char* text)
{
    double number = 0;
    const auto* end = text + std::strlen(text);
    const auto [stop, code] = std::from_chars(text, end, number);
    const bool isRate = code == std::errc() && std::isfinite(number) && number > 0;
    return isRate && number <= largestRate ? std::optional(number) : std::nullopt;
}

std::string sentence(double containerRate, double captureRate, const std::string& source)
{
    const double factor = captureRate / containerRate;
    return "Container says " + inWords(containerRate) + " frames/s; capture rate " +
           inWords(captureRate) + " " + source + ": " +
           (factor > 1 ? inWords(factor) + " times slow motion."
                       : inWords(1 / factor) + " times faster than life.");
}

} // namespace

std::optional<CaptureRateFound> captureRateIn(const AVFormatContext& demuxer,
                                              const AVStream& stream)
{
    constexpr const char* key = "com.android.capture.fps";
    for (const auto* metadata : {stream.metadata, demuxer.metadata}) {
        const auto* entry = av_dict_get(metadata, key, nullptr, 0);
        const auto rate = entry ? numberIn(entry->value) : std::nullopt;
        if (rate) {
            return CaptureRateFound{*rate, key};
        }
    }
    return std::nullopt;
}

Outcome<RealTime> realTime(double containerRate, std::optional<double> stated,
                           const std::optional<CaptureRateFound>& found,
                           std::vector<std::string>& remarks)
{
    if (stated && !(*stated > 0 && *stated <= largestRate)) {
        return fail(Error::Kind::Inconsistent,
                    "A capture rate of " + inWords(*stated) +
                        " frames/s cannot be; state the frames the camera took in a second, such "
                        "as 240.");
    }
    const bool foundSlow = found && found->rate / containerRate >= leastFactorInFile;
    if (stated && std::abs(*stated / containerRate - 1) > sameRate) {
        remarks.push_back(sentence(containerRate, *stated, "stated"));
        if (foundSlow && std::abs(found->rate / *stated - 1) > sameRate) {
            remarks.push_back("The file itself gives a capture rate of " + inWords(found->rate) +
                              "; check which is right.");
        }
        return RealTime{*stated, *stated / containerRate, "stated"};
    }
    if (!stated && foundSlow) {
        remarks.push_back(sentence(containerRate, found->rate, "found in the file"));
        return RealTime{found->rate, found->rate / containerRate, found->key};
    }
    if (stated && foundSlow) {
        remarks.push_back("The file gives a capture rate of " + inWords(found->rate) + ", but " +
                          inWords(*stated) + " is stated; check which is right.");
    }
    return RealTime{containerRate, 1.0, stated ? "stated" : "time stamps"};
}

} // namespace latemile
