// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/pictured_times.hpp"

#include "core/follow/follow.hpp"
#include "core/follow/like_steps.hpp"
#include "core/follow/sound_marks.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>

namespace latemile {

namespace {

using MaybeEvent = std::optional<TimedEvent> GroundTime::*;

/// Which frame of each stance the foot is followed from.
struct Beginning {
    MaybeEvent event{}; ///< that is timed by it
    double after{};     ///< s, from where that is expected
};
constexpr std::array beginnings{
    Beginning{&GroundTime::contact, 0.09}, Beginning{&GroundTime::toeOff, -0.06},
    Beginning{&GroundTime::toeOff, -0.04}, Beginning{&GroundTime::toeOff, 0.0}};
constexpr double sameEvent = 0.06; ///< s, within which two times are of one event
/// Contacts by the pictures lay 15 ms before to 25 ms behind those by the marks alone on rendered
/// clips; farther off something else moved, as a hand rail's edge across the foot. At least so many
/// frames.
constexpr double sameContact = 0.03;
constexpr double sameContactFrames = 1.5;
// What a foot's events are off by together, s; fitted on rendered clips.
constexpr double contactCommon = 0.003;
constexpr double toeOffCommon = 0.004;
constexpr double unseenError = 0.040; ///< s, of an event that no picture shows; at least a frame
constexpr double spansEdge = 0.1;     ///< s

Marking seedsFor(const Beginning& beginning, const std::vector<FootTimes>& feet,
                 const SoundMarks& marks, const FrameIndex& index)
{
    Marking seeds;
    for (const auto& foot : feet) {
        for (const auto& time : foot.times) {
            if (const auto& event = time.*beginning.event; event && !foot.isSure) {
                marks.addAt(seeds, foot.side, event->time + beginning.after, index);
            }
        }
    }
    return seeds;
}

std::optional<TimedEvent> nearestTo(double time, const std::vector<GroundTime>& times,
                                    MaybeEvent event, double within = sameEvent)
{
    std::optional<TimedEvent> nearest;
    for (const auto& one : times) {
        const auto& there = one.*event;
        if (there && std::abs(there->time - time) < within &&
            (!nearest || std::abs(there->time - time) < std::abs(nearest->time - time))) {
            nearest = there;
        }
    }
    return nearest;
}

/// Of one foot: what was found from each of the beginnings.
using Passes = std::array<std::vector<GroundTime>, beginnings.size()>;

std::optional<TimedEvent> contactBy(const TimedEvent& expected, const Passes& passes,
                                    double interval)
{
    const auto seen = nearestTo(expected.time, passes[0], &GroundTime::contact,
                                std::max(sameContact, sameContactFrames * interval));
    return seen ? std::optional(TimedEvent{seen->time, std::hypot(seen->se, contactCommon)})
                : std::nullopt;
}

std::optional<TimedEvent> toeOffBy(const TimedEvent& expected, const Passes& passes,
                                   double interval)
{
    double sum = expected.time;
    double squares = expected.time * expected.time;
    double n = 1.0;
    for (std::size_t pass = 1; pass < passes.size(); ++pass) {
        if (const auto seen = nearestTo(expected.time, passes[pass], &GroundTime::toeOff)) {
            sum += seen->time;
            squares += seen->time * seen->time;
            n += 1.0;
        }
    }
    if (n < 2.0) {
        return std::nullopt;
    }
    const double mean = sum / n;
    const double spread = std::max(0.0, (squares - n * mean * mean) / (n - 1.0));
    return TimedEvent{mean, std::hypot(toeOffCommon, std::sqrt(spread / n), 0.25 * interval)};
}

/// From the first to the last frame on which the foot is marked, s.
struct Span {
    double from{};
    double to{};
};

/// The motion is known from a frame after the first mark to a frame before the last.
Span markedSpan(const FootMotion& motion, double interval)
{
    Span span{motion.times.back(), motion.times.front()};
    for (std::size_t k = 0; k < motion.times.size(); ++k) {
        if (motion.toe[k]) {
            span.from = std::min(span.from, motion.times[k] - interval);
            span.to = motion.times[k] + interval;
        }
    }
    return span;
}

/// What an event that the pictures do not show is worth: behind a rail it is kept and unsure; where
/// the clip or its marks begin or end a foot that stands on is easily taken to land or leave.
std::optional<TimedEvent> unseen(const TimedEvent& expected, const Span& marked, double interval)
{
    const bool isInside =
        expected.time > marked.from + spansEdge && expected.time < marked.to - spansEdge;
    return isInside ? std::optional(TimedEvent{
                          expected.time, std::hypot(expected.se, std::max(unseenError, interval))})
                    : std::nullopt;
}

void timeAnew(FootTimes& foot, const Passes& passes)
{
    const auto& frames = foot.motion.times;
    const double interval =
        (frames.back() - frames.front()) / static_cast<double>(frames.size() - 1);
    const auto marked = markedSpan(foot.motion, interval);
    for (auto& time : foot.times) {
        if (const auto expected = time.contact) {
            const auto seen = contactBy(*expected, passes, interval);
            time.contact = seen ? seen : unseen(*expected, marked, interval);
        }
        if (const auto expected = time.toeOff) {
            const auto seen = toeOffBy(*expected, passes, interval);
            time.toeOff = seen ? seen : unseen(*expected, marked, interval);
        }
    }
}

/// Reading is the first half of the work, and following from each of the beginnings its share of
/// the other.
class Share {
public:
    explicit Share(const std::function<bool(double)>& goOn) : m_goOn(goOn) {}
    void begin(std::size_t pass) { m_pass = static_cast<double>(pass); }
    /// `share` as Follower tells it: reading up to a half, each following from there to the whole.
    bool goesOn(double share) const
    {
        const double read = std::min(share, 0.5);
        const double followed = std::max(0.0, share - 0.5) + 0.5 * m_pass;
        return !m_goOn || m_goOn(read + followed / static_cast<double>(beginnings.size()));
    }

private:
    const std::function<bool(double)>& m_goOn;
    double m_pass{};
};

/// The seeds and what is followed from them.
Outcome<Marking> followedFrom(const Follower& follower, const Marking& seeds)
{
    ASSIGN_OR_RETURN(auto followed, follower.follow(seeds));
    auto marking = seeds;
    marking.marks.merge(followed.marks);
    return marking;
}

std::vector<GroundTime> timesBy(const Marking& marking, MaybeEvent event, const FootTimes& foot,
                                const Plane& plane, const FrameIndex& index, double cmPerUnit)
{
    const auto motion = footMotionOf(marking, foot.side, plane, index, cmPerUnit);
    if (!motion) {
        return {};
    }
    auto times = groundTimesOf(*motion);
    return event == &GroundTime::toeOff ? likeSteps(*motion, std::move(times)) : times;
}

/// One a beginning.
using AllSeeds = std::array<Marking, beginnings.size()>;

/// First and last frame with a mark: of a part of a clip no other pictures are read.
std::pair<FrameNumber, FrameNumber> markedFrames(const Marking& marking)
{
    const auto& marks = marking.marks; // in order of frames
    return {marks.begin()->first.frame, marks.rbegin()->first.frame};
}

/// What the pictures tell of each foot that is not sure, from each of the beginnings.
Outcome<std::map<BodySide, Passes>> passesOf(ClipReader& clip, const Marking& marking,
                                             const AllSeeds& seeds,
                                             const std::vector<FootTimes>& feet, const Plane& plane,
                                             const std::function<bool(double)>& goOn)
{
    Marking all;
    for (const auto& some : seeds) {
        all.marks.insert(some.marks.begin(), some.marks.end());
    }
    if (all.marks.empty()) {
        return std::map<BodySide, Passes>{};
    }
    const double unit = cmPerUnit(marking, plane);
    Share share(goOn);
    FollowOptions options;
    std::tie(options.first, options.last) = markedFrames(marking);
    options.goOn = [&share](double done) { return share.goesOn(done); };
    ASSIGN_OR_RETURN(const auto follower, Follower::open(clip, all, options));
    std::map<BodySide, Passes> found;
    for (std::size_t pass = 0; pass < seeds.size(); ++pass) {
        share.begin(pass);
        if (seeds[pass].marks.empty()) {
            continue;
        }
        ASSIGN_OR_RETURN(const auto followed, followedFrom(follower, seeds[pass]));
        for (const auto& foot : feet) {
            if (!foot.isSure) {
                found[foot.side][pass] =
                    timesBy(followed, beginnings[pass].event, foot, plane, clip.index(), unit);
            }
        }
    }
    return found;
}

} // namespace

Outcome<std::vector<FootTimes>> timedByPictures(ClipReader& clip, const Marking& marking,
                                                const Plane& plane, std::vector<FootTimes> feet,
                                                const std::function<bool(double)>& goOn)
{
    const SoundMarks marks(marking);
    AllSeeds seeds;
    for (std::size_t pass = 0; pass < seeds.size(); ++pass) {
        seeds[pass] = seedsFor(beginnings[pass], feet, marks, clip.index());
    }
    ASSIGN_OR_RETURN(auto found, passesOf(clip, marking, seeds, feet, plane, goOn));
    for (auto& foot : feet) {
        if (!foot.isSure) {
            timeAnew(foot, found[foot.side]);
        }
    }
    return feet;
}

} // namespace latemile
