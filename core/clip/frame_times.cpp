// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/frame_times.hpp"

#include "core/clip/numbers_in_words.hpp"
#include "core/median.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

constexpr double assumedRate = 25.0; ///< of PAL television, where a file tells nothing at all

using Stamps = std::vector<std::int64_t>;

/// Presentation stamps; where any is missing, the decoding stamps in rising order stand in: the
/// k-th frame shown takes the k-th of them. Empty where those are missing too.
Stamps stampsOf(const PacketIndex& index, const std::vector<std::int64_t>& shown,
                std::vector<std::string>& remarks)
{
    Stamps stamps;
    Stamps decoding;
    for (const auto ordinal : shown) {
        const auto& packet = index.packets[static_cast<std::size_t>(ordinal)];
        if (packet.pts != AV_NOPTS_VALUE) {
            stamps.push_back(packet.pts);
        }
        if (packet.dts != AV_NOPTS_VALUE) {
            decoding.push_back(packet.dts);
        }
    }
    if (stamps.size() == shown.size()) {
        return stamps;
    }
    remarks.push_back("The file gives no time of presentation to some frames; their times come "
                      "from their order.");
    if (decoding.size() == shown.size()) {
        std::sort(decoding.begin(), decoding.end());
        return decoding;
    }
    return {};
}

std::vector<double> intervalsOf(const std::vector<double>& seconds)
{
    std::vector<double> intervals;
    for (std::size_t i = 1; i < seconds.size(); ++i) {
        intervals.push_back(seconds[i] - seconds[i - 1]);
    }
    return intervals;
}

double usualInterval(const std::vector<double>& seconds, const StatedTiming& stated)
{
    auto intervals = intervalsOf(seconds);
    std::erase_if(intervals, [](double interval) { return interval <= 0; });
    if (!intervals.empty()) {
        return upperMedianOf(std::move(intervals));
    }
    return stated.statedRate > 0 ? 1.0 / stated.statedRate : 1.0 / assumedRate;
}

/// Spreads frames that share a stamp, or go back, evenly up to the next later one.
bool spreadRepeats(std::vector<double>& seconds, double usual)
{
    bool repaired = false;
    for (std::size_t first = 0; first < seconds.size();) {
        std::size_t next = first + 1;
        while (next < seconds.size() && seconds[next] <= seconds[first]) {
            ++next;
        }
        const auto count = static_cast<double>(next - first);
        const double end = next < seconds.size() ? seconds[next] : seconds[first] + usual * count;
        const double step = (end - seconds[first]) / count;
        for (std::size_t i = first + 1; i < next; ++i) {
            seconds[i] = seconds[first] + step * static_cast<double>(i - first);
            repaired = true;
        }
        first = next;
    }
    return repaired;
}

/// Whether every stamp is what rounding an even rate to the file's ticks gives.
bool fitsEvenRate(const std::vector<double>& seconds, double rate, double tick)
{
    for (std::size_t i = 0; i < seconds.size(); ++i) {
        if (std::abs(seconds[i] - static_cast<double>(i) / rate) > tick * 1.01) {
            return false;
        }
    }
    return true;
}

bool variesBy(const std::vector<double>& seconds, double usual, double tick)
{
    const auto intervals = intervalsOf(seconds);
    const double allowed = std::max(usual * 0.1, tick * 1.01);
    return std::any_of(intervals.begin(), intervals.end(),
                       [&](double interval) { return std::abs(interval - usual) > allowed; });
}

std::vector<double> evenTimes(std::size_t count, double rate)
{
    std::vector<double> seconds(count);
    for (std::size_t i = 0; i < count; ++i) {
        seconds[i] = static_cast<double>(i) / rate;
    }
    return seconds;
}

double lastInterval(const PacketIndex& index, const std::vector<std::int64_t>& shown, double tick,
                    double usual)
{
    const auto& last = index.packets[static_cast<std::size_t>(shown.back())];
    const double stated = static_cast<double>(last.duration) * tick;
    // A writer that does not know how long the last frame lasts puts 0 or a nonsense there.
    return stated > usual * 0.5 && stated < usual * 2.0 ? stated : usual;
}

} // namespace

FrameTimes frameTimes(const PacketIndex& index, const std::vector<std::int64_t>& shown,
                      const StatedTiming& stated, std::vector<std::string>& remarks)
{
    const auto stamps = stampsOf(index, shown, remarks);
    FrameTimes times;
    if (stamps.empty()) {
        times.rate = stated.statedRate > 0 ? stated.statedRate : assumedRate;
        times.seconds = evenTimes(shown.size(), times.rate);
        times.lastInterval = 1.0 / times.rate;
        remarks.push_back("The file gives its frames no times; " + inWords(times.rate) +
                          " frames/s is taken from " +
                          (stated.statedRate > 0 ? "its header." : "common practice."));
        return times;
    }
    for (const auto stamp : stamps) {
        times.seconds.push_back(static_cast<double>(stamp - stamps.front()) * stated.tick);
    }
    double usual = usualInterval(times.seconds, stated);
    if (spreadRepeats(times.seconds, usual)) {
        remarks.push_back("Some frames share a time in the file; they were spread evenly up to "
                          "the next one.");
    }
    const double rate = stated.statedRate;
    if (rate > 0 && fitsEvenRate(times.seconds, rate, stated.tick)) {
        times.rate = rate;
        if (stated.tick * rate > 0.02) {
            times.seconds = evenTimes(times.seconds.size(), rate);
            remarks.push_back("The file rounds its times to " + inWords(stated.tick * 1000) +
                              " ms; they fit " + inWords(rate) +
                              " frames/s evenly, which is used.");
        }
        usual = 1.0 / rate;
    } else {
        times.isVariable = variesBy(times.seconds, usual, stated.tick);
        const auto count = static_cast<double>(times.seconds.size() - 1);
        times.rate = times.isVariable || count < 1 ? 1.0 / usual : count / times.seconds.back();
    }
    times.lastInterval = lastInterval(index, shown, stated.tick, usual);
    return times;
}

} // namespace latemile
