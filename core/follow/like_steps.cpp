// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/like_steps.hpp"

#include "core/median.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

namespace latemile {

namespace {

constexpr std::size_t fewestSteps = 3;
constexpr double before = 0.12; ///< s of a landing's path
constexpr double after = 0.10;
constexpr double step = 1.0 / 120.0;
constexpr auto places = static_cast<std::size_t>((before + after) / step) + 1;
constexpr int rounds = 6;
constexpr double seenShare = 0.5;   ///< of a landing's path, to be laid on another
constexpr double outlierFrom = 3.0; ///< cm: farther off a place counts ever less

// Standard error, s, nearly all of it common to all steps of a foot: of fourteen rendered clips'
// proposals.
constexpr double commonError = 0.009;

double offsetOf(std::size_t place)
{
    return static_cast<double>(place) * step - before;
}

/// Of heel and toe, at each place of the path.
using EndPath = std::array<std::optional<PlanePoint>, places>;
using Landing = std::array<EndPath, 2>;

std::optional<PlanePoint> placeAt(const FootMotion& foot,
                                  const std::vector<std::optional<EndMotion>>& end, double time)
{
    const auto next = std::upper_bound(foot.times.begin(), foot.times.end(), time);
    if (next == foot.times.begin() || next == foot.times.end()) {
        return std::nullopt;
    }
    const auto i = static_cast<std::size_t>(next - foot.times.begin());
    const auto& a = end[i - 1];
    const auto& b = end[i];
    if (!a || !b) {
        return std::nullopt;
    }
    const double share = (time - foot.times[i - 1]) / (foot.times[i] - foot.times[i - 1]);
    return PlanePoint{a->along + share * (b->along - a->along),
                      a->height + share * (b->height - a->height)};
}

Landing landingAt(const FootMotion& foot, double time)
{
    Landing landing;
    for (std::size_t k = 0; k < places; ++k) {
        landing[0][k] = placeAt(foot, foot.heel, time + offsetOf(k));
        landing[1][k] = placeAt(foot, foot.toe, time + offsetOf(k));
    }
    return landing;
}

/// Calls `each` with both places where both paths have one.
template <class Each>
void together(const Landing& a, const Landing& b, Each each)
{
    for (std::size_t end = 0; end < a.size(); ++end) {
        for (std::size_t k = 0; k < places; ++k) {
            if (a[end][k] && b[end][k]) {
                each(*a[end][k], *b[end][k]);
            }
        }
    }
}

/// How much farther along `landing` is than `usual`: a runner drifts on the belt.
double aheadOf(const Landing& landing, const Landing& usual)
{
    std::vector<double> ahead;
    together(landing, usual, [&](const auto& a, const auto& b) { ahead.push_back(a.x - b.x); });
    return ahead.empty() ? 0.0 : upperMedianOf(std::move(ahead));
}

void moveAlong(Landing& landing, double by)
{
    for (auto& end : landing) {
        for (auto& place : end) {
            if (place) {
                place->x += by;
            }
        }
    }
}

/// Place by place, where at least half of the landings have one.
Landing medianOf(const std::vector<Landing>& landings)
{
    Landing usual;
    for (std::size_t end = 0; end < usual.size(); ++end) {
        for (std::size_t k = 0; k < places; ++k) {
            std::vector<double> x;
            std::vector<double> y;
            for (const auto& landing : landings) {
                if (const auto& place = landing[end][k]) {
                    x.push_back(place->x);
                    y.push_back(place->y);
                }
            }
            if (!x.empty() && 2 * x.size() >= landings.size()) {
                usual[end][k] =
                    PlanePoint{upperMedianOf(std::move(x)), upperMedianOf(std::move(y))};
            }
        }
    }
    return usual;
}

/// The path that all landings follow, less where on the belt each was.
Landing usualLanding(const FootMotion& foot, const std::vector<double>& times)
{
    std::vector<Landing> landings;
    for (const double time : times) {
        landings.push_back(landingAt(foot, time));
    }
    auto usual = landings.front();
    for (int round = 0; round < 3; ++round) {
        for (auto& landing : landings) {
            moveAlong(landing, -aheadOf(landing, usual));
        }
        usual = medianOf(landings);
    }
    return usual;
}

/// Mean square of what they lie apart, cm², an outlier's bounded; nothing where too little is seen.
std::optional<double> apart(const Landing& landing, const Landing& usual)
{
    double sum = 0.0;
    double n = 0.0;
    const double ahead = aheadOf(landing, usual);
    together(landing, usual, [&](const auto& a, const auto& b) {
        for (const double off : {a.x - ahead - b.x, a.y - b.y}) {
            sum += off * off / (1.0 + off * off / (outlierFrom * outlierFrom));
        }
        n += 2.0;
    });
    const double all = 2.0 * 2.0 * static_cast<double>(places);
    return n < seenShare * all ? std::nullopt : std::optional(sum / n);
}

/// By how much later a landing lies best on the usual one; nothing where too little of it is seen.
std::optional<double> laterBy(const FootMotion& foot, double time, const Landing& usual, int round)
{
    const double reach = round < 2 ? 0.06 : 0.02;
    const double pace = round < 3 ? 0.004 : 0.001;
    std::optional<double> least;
    std::optional<double> best;
    for (double shift = -reach; shift <= reach; shift += pace) {
        const auto cost = apart(landingAt(foot, time + shift), usual);
        if (cost && (!least || *cost < *least)) {
            least = cost;
            best = shift;
        }
    }
    return best;
}

double meanOf(const std::vector<double>& values)
{
    double sum = 0.0;
    for (const double value : values) {
        sum += value;
    }
    return sum / static_cast<double>(values.size());
}

/// Without the least and the largest fifth.
double trimmedMeanOf(std::vector<double> values)
{
    std::sort(values.begin(), values.end());
    const auto cut = static_cast<std::ptrdiff_t>(values.size() / 5);
    return meanOf({values.begin() + cut, values.end() - cut});
}

/// Some of the steps of a foot: their places among all, and a time of each.
struct SomeSteps {
    std::vector<std::size_t> places;
    std::vector<double> times;
};

/// Times at which all landings are equally far on, on average those given; without those of which
/// too little is seen.
SomeSteps aligned(const FootMotion& foot, const std::vector<double>& singly)
{
    SomeSteps steps;
    steps.times = singly;
    steps.places.resize(singly.size());
    std::iota(steps.places.begin(), steps.places.end(), std::size_t{0});
    for (int round = 0; round < rounds && steps.times.size() >= fewestSteps; ++round) {
        const auto usual = usualLanding(foot, steps.times);
        SomeSteps seen;
        std::vector<double> later;
        for (std::size_t i = 0; i < steps.times.size(); ++i) {
            if (const auto by = laterBy(foot, steps.times[i], usual, round)) {
                seen.places.push_back(steps.places[i]);
                seen.times.push_back(steps.times[i]);
                later.push_back(*by);
            }
        }
        for (std::size_t i = 0; i < later.size(); ++i) {
            seen.times[i] += later[i] - meanOf(later);
        }
        steps = std::move(seen);
    }
    return steps;
}

/// Shifts each event to where its path is like the others'. One that cannot be laid on them, behind
/// a rail as a rule, stays as it was found, and so do all where there are few.
void settle(const FootMotion& foot, std::vector<GroundTime>& times,
            std::optional<TimedEvent> GroundTime::*event)
{
    std::vector<TimedEvent*> events;
    std::vector<double> singly;
    for (auto& time : times) {
        if (auto& one = time.*event) {
            events.push_back(&*one);
            singly.push_back(one->time);
        }
    }
    const auto alike = aligned(foot, singly);
    if (alike.times.size() < fewestSteps) {
        return;
    }
    std::vector<double> off;
    for (std::size_t i = 0; i < alike.times.size(); ++i) {
        off.push_back(singly[alike.places[i]] - alike.times[i]);
    }
    const double common = trimmedMeanOf(std::move(off));
    for (std::size_t i = 0; i < alike.times.size(); ++i) {
        *events[alike.places[i]] = {alike.times[i] + common, commonError};
    }
}

} // namespace

std::vector<GroundTime> likeSteps(const FootMotion& foot, std::vector<GroundTime> times)
{
    settle(foot, times, &GroundTime::contact);
    settle(foot, times, &GroundTime::toeOff);
    return times;
}

} // namespace latemile
