// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/ground_times.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

namespace latemile {

namespace {

// When a foot is taken to be on the ground at all.
constexpr double onGroundSlip = 0.12;
constexpr double onGroundHeight = 4.0; ///< cm
/// s, between two stances of a foot: it takes a sprinter at top speed over 0.3 s to swing a leg
/// (Weyand 2000, from memory), so that less is a foot hidden by the other leg for a moment.
constexpr double shortestHole = 0.2;
constexpr double shortestStance = 0.08;

// The signs: levels crossed, delays taken off (s), and what they are uncertain by: a fixed part (s)
// and a slack of the level, which is the longer in time the slower it is crossed.
struct SignOf {
    double level;
    double delay;
    double fixedError;
    double slack;
};
constexpr SignOf landedSlip{0.06, 0.000, 0.0015, 0.02};
constexpr SignOf landedFall{0.05, -0.010, 0.009, 0.0};
constexpr SignOf leavingSlip{0.10, 0.007, 0.003, 0.03};
constexpr SignOf leavingHeight{1.5, 0.027, 0.005, 0.5};

constexpr double lookBefore = 0.07; ///< s around the edges of a stance
constexpr double lookAfter = 0.05;
constexpr double lateSign = 0.015;    ///< s by which the other sign of a contact may come after
constexpr double usualLag = 0.010;    ///< s by which a foot stops slipping after it stopped falling
constexpr double heldFor = 0.02;      ///< s for which a signal stays past its level
constexpr double swingSeen = 0.12;    ///< s before a contact in which the foot must be seen ...
constexpr double swingingSlip = 0.35; ///< ... as fast as this
constexpr double seenAround = 0.04;   ///< s around a contact in which both ends are looked for
/// Where heel or toe is not seen the other may land much later: by half of the time a foot takes to
/// come down flat.
constexpr double oneEndError = 0.025; ///< s
constexpr double bothSeenShare = 0.7;

using Signal = std::function<std::optional<double>(std::size_t)>;

struct Crossing {
    double time{};
    double rate{}; ///< of the signal, a second; absolute
};

std::optional<Crossing> crossingAt(const FootMotion& foot, const Signal& signal, std::size_t i,
                                   double level, bool falls)
{
    if (i + 1 >= foot.times.size()) {
        return std::nullopt;
    }
    const auto a = signal(i);
    const auto b = signal(i + 1);
    if (!a || !b) {
        return std::nullopt;
    }
    const double before = falls ? *a - level : level - *a;
    const double after = falls ? *b - level : level - *b;
    if (!(before > 0.0 && after <= 0.0)) {
        return std::nullopt;
    }
    const double interval = foot.times[i + 1] - foot.times[i];
    return Crossing{foot.times[i] + interval * before / (before - after),
                    (before - after) / interval};
}

/// Whether the signal stays past half again its level after frame `i`.
bool isHeld(const FootMotion& foot, const Signal& signal, std::size_t i, double level, bool falls)
{
    for (std::size_t k = i + 1; k < foot.times.size() && foot.times[k] <= foot.times[i] + heldFor;
         ++k) {
        const auto value = signal(k);
        if (value && (falls ? *value > 1.5 * level : *value < level / 1.5)) {
            return false;
        }
    }
    return true;
}

enum class Wanted { First, Last };

std::optional<Crossing> crossingIn(const FootMotion& foot, const Signal& signal, double from,
                                   double to, double level, bool falls, Wanted wanted)
{
    std::optional<Crossing> found;
    for (std::size_t i = 0; i + 1 < foot.times.size(); ++i) {
        if (foot.times[i + 1] < from || foot.times[i] > to) {
            continue;
        }
        const auto crossing = crossingAt(foot, signal, i, level, falls);
        if (crossing && isHeld(foot, signal, i, level, falls)) {
            found = crossing;
            if (wanted == Wanted::First) {
                break;
            }
        }
    }
    return found;
}

std::optional<TimedEvent> signFrom(const std::optional<Crossing>& crossing, const SignOf& sign)
{
    if (!crossing) {
        return std::nullopt;
    }
    return TimedEvent{crossing->time - sign.delay,
                      std::hypot(sign.fixedError, sign.slack / crossing->rate)};
}

/// Weighted by their errors; where they contradict each other the error is widened (Birge's ratio).
std::optional<TimedEvent> together(const std::vector<std::optional<TimedEvent>>& signs,
                                   double interval)
{
    double weights = 0.0;
    double sum = 0.0;
    int n = 0;
    for (const auto& sign : signs) {
        if (sign) {
            const double weight = 1.0 / (sign->se * sign->se);
            weights += weight;
            sum += weight * sign->time;
            ++n;
        }
    }
    if (n == 0) {
        return std::nullopt;
    }
    const double mean = sum / weights;
    double squares = 0.0;
    for (const auto& sign : signs) {
        if (sign) {
            squares += std::pow((sign->time - mean) / sign->se, 2.0);
        }
    }
    const double birge = n > 1 ? std::max(1.0, squares / (n - 1)) : 1.0;
    return TimedEvent{mean, std::hypot(std::sqrt(birge / weights), 0.25 * interval)};
}

struct Span {
    std::size_t first{};
    std::size_t last{};
};

bool isOnGround(const FootMotion& foot, std::size_t frame)
{
    const auto slip = foot.slip(frame);
    const auto lower = foot.lower(frame);
    return slip && *slip < onGroundSlip && lower->height < onGroundHeight;
}

std::vector<Span> spansOf(const FootMotion& foot)
{
    std::vector<Span> spans;
    for (std::size_t i = 0; i < foot.times.size(); ++i) {
        if (!isOnGround(foot, i)) {
            continue;
        }
        if (!spans.empty() && foot.times[i] - foot.times[spans.back().last] < shortestHole) {
            spans.back().last = i;
        } else {
            spans.push_back({i, i});
        }
    }
    std::erase_if(spans, [&](const Span& span) {
        return foot.times[span.last] - foot.times[span.first] < shortestStance;
    });
    return spans;
}

/// Whether both ends of the foot are seen on most frames around a time.
bool bothEndsSeen(const FootMotion& foot, double time)
{
    int seen = 0;
    int all = 0;
    for (std::size_t i = 0; i < foot.times.size(); ++i) {
        if (std::abs(foot.times[i] - time) <= seenAround) {
            ++all;
            seen += foot.heel[i] && foot.toe[i] ? 1 : 0;
        }
    }
    return seen >= bothSeenShare * all;
}

/// A foot that lands was swinging shortly before; one that already stands where the clip begins was
/// not seen to land.
bool wasSwinging(const FootMotion& foot, double landed)
{
    for (std::size_t i = 0; i < foot.times.size() && foot.times[i] < landed; ++i) {
        const auto slip = foot.slip(i);
        if (foot.times[i] >= landed - swingSeen && slip && *slip > swingingSlip) {
            return true;
        }
    }
    return false;
}

std::optional<TimedEvent> contactOf(const FootMotion& foot, const Span& span, double interval)
{
    const double edge = foot.times[span.first];
    const Signal slip = [&](std::size_t i) { return foot.slip(i); };
    const Signal fall = [&](std::size_t i) -> std::optional<double> {
        const auto lower = foot.lower(i);
        return lower ? std::optional(-lower->rise) : std::nullopt;
    };
    auto slipped = signFrom(crossingIn(foot, slip, edge - lookBefore, edge + lookBefore,
                                       landedSlip.level, true, Wanted::First),
                            landedSlip);
    if (!slipped || !wasSwinging(foot, slipped->time)) {
        return std::nullopt;
    }
    const double from = slipped->time - lookBefore;
    const double to = slipped->time + lateSign;
    const auto fallen = signFrom(
        crossingIn(foot, fall, from, to, landedFall.level, true, Wanted::Last), landedFall);
    if (fallen) {
        // Smoothed marks go on slipping after they landed: what that sign is late by is its error.
        slipped->se =
            std::hypot(slipped->se, std::max(0.0, slipped->time - fallen->time - usualLag));
    }
    auto contact = together({slipped, fallen}, interval);
    if (!bothEndsSeen(foot, contact->time)) {
        contact->se = std::hypot(contact->se, oneEndError);
    }
    return contact;
}

std::optional<TimedEvent> toeOffOf(const FootMotion& foot, const Span& span, double interval)
{
    const double edge = foot.times[span.last];
    const Signal slip = [&](std::size_t i) -> std::optional<double> {
        return foot.toe[i] ? std::optional(foot.toe[i]->slip) : std::nullopt;
    };
    const Signal height = [&](std::size_t i) -> std::optional<double> {
        return foot.toe[i] ? std::optional(foot.toe[i]->height) : std::nullopt;
    };
    const auto slipped = signFrom(crossingIn(foot, slip, edge - lookBefore, edge + lookAfter,
                                             leavingSlip.level, false, Wanted::Last),
                                  leavingSlip);
    const double about = slipped ? slipped->time : edge;
    const auto risen = signFrom(crossingIn(foot, height, about - 0.02, about + 0.09,
                                           leavingHeight.level, false, Wanted::First),
                                leavingHeight);
    return together({slipped, risen}, interval);
}

} // namespace

std::vector<GroundTime> groundTimesOf(const FootMotion& foot)
{
    const double interval =
        (foot.times.back() - foot.times.front()) / static_cast<double>(foot.times.size() - 1);
    std::vector<GroundTime> found;
    for (const auto& span : spansOf(foot)) {
        const GroundTime time{contactOf(foot, span, interval), toeOffOf(foot, span, interval)};
        if (time.contact || time.toeOff) {
            found.push_back(time);
        }
    }
    return found;
}

} // namespace latemile
