// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/contact_finder.hpp"

#include "core/decimal_text.hpp"
#include "core/follow/bridged_marks.hpp"
#include "core/follow/pictured_times.hpp"
#include "core/marks/rhythm.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

/// By how much the signs of one clip may be off alike before anything is known of it (s), and the
/// chance error of one event by them; both fitted on modelled runners.
constexpr double commonError = 0.006;
constexpr double chanceError = 0.003;
constexpr double sameEvent = 0.05; ///< s within which a found event is a placed one
constexpr double judgement = 0.58; ///< of a frame interval: error of a placed event

Foot footOf(BodySide side, View view)
{
    const bool leftIsNear = view == View::LeftSide;
    return (side == BodySide::Near) == leftIsNear ? Foot::Left : Foot::Right;
}

/// What placed events say about how far found ones lie off, all alike.
class Correction {
public:
    explicit Correction(double interval)
        : m_one(std::pow(judgement * interval, 2.0) + chanceError * chanceError)
    {
    }
    void add(double placedLessFound)
    {
        m_sum += placedLessFound;
        ++m_n;
    }
    [[nodiscard]] TimedEvent applied(const TimedEvent& event) const
    {
        if (m_n == 0) {
            return event;
        }
        const double prior = 1.0 / (commonError * commonError);
        const double seen = m_n / m_one;
        const double shift = m_sum / m_n * seen / (prior + seen);
        return {event.time + shift,
                std::min(event.se, std::sqrt(1.0 / (prior + seen) + chanceError * chanceError))};
    }

private:
    double m_one;
    double m_sum{};
    int m_n{};
};

const Stance* placedAt(const std::vector<Stance>& stances, Foot foot, const GroundTime& time)
{
    for (const auto& stance : stances) {
        if (stance.foot != foot || stance.origin == Origin::Proposed) {
            continue;
        }
        const bool landsAlike =
            time.contact && std::abs(time.contact->time - stance.contact.count()) < sameEvent;
        const bool leavesAlike = time.toeOff && stance.toeOff &&
                                 std::abs(time.toeOff->time - stance.toeOff->count()) < sameEvent;
        const bool overlaps = time.contact && stance.toeOff &&
                              time.contact->time > stance.contact.count() &&
                              time.contact->time < stance.toeOff->count();
        if (landsAlike || leavesAlike || overlaps) {
            return &stance;
        }
    }
    return nullptr;
}

/// The stances of one foot that no placed one tells of already.
std::vector<Stance> newStances(const std::vector<GroundTime>& times,
                               const std::vector<Stance>& placed, Foot foot, double interval)
{
    Correction contacts(interval);
    Correction toeOffs(interval);
    for (const auto& time : times) {
        const auto* stance = placedAt(placed, foot, time);
        if (stance && time.contact &&
            std::abs(stance->contact.count() - time.contact->time) < sameEvent) {
            contacts.add(stance->contact.count() - time.contact->time);
        }
        if (stance && time.toeOff && stance->toeOff &&
            std::abs(stance->toeOff->count() - time.toeOff->time) < sameEvent) {
            toeOffs.add(stance->toeOff->count() - time.toeOff->time);
        }
    }
    std::vector<Stance> stances;
    for (const auto& time : times) {
        if (!time.contact || placedAt(placed, foot, time)) {
            continue;
        }
        const auto contact = contacts.applied(*time.contact);
        Stance stance{foot, Seconds(contact.time), std::nullopt, Origin::Proposed,
                      Seconds(contact.se)};
        if (time.toeOff) {
            const auto toeOff = toeOffs.applied(*time.toeOff);
            if (toeOff.time > contact.time) {
                stance.toeOff = Seconds(toeOff.time);
                stance.se = Seconds(std::max(contact.se, toeOff.se));
            }
        }
        stances.push_back(stance);
    }
    return stances;
}

/// A standing foot that moves through the picture where no belt is stated, or stands still where
/// one is.
std::optional<std::string> groundRemark(const FootMotion& foot, const Scene& scene)
{
    const double speed = std::abs(foot.groundSpeed);
    const auto metres = decimalText(speed / 100.0, 2);
    if (!scene.beltSpeed && speed > 0.1 * foot.range) {
        return "The standing foot moves through the picture at about " + metres +
               " m/s and no belt is stated: on a treadmill, state its speed; if the camera was "
               "turned along with the runner, trust times and angles but no distances.";
    }
    if (scene.beltSpeed && speed < 0.1 * foot.range) {
        return std::string(
            "The standing foot does not move although a belt is stated: over ground, "
            "leave the belt's speed empty.");
    }
    return std::nullopt;
}

bool byContact(const Stance& a, const Stance& b)
{
    return a.contact < b.contact;
}

Outcome<Plane> planeOf(const Scene& scene)
{
    if (!isSideView(scene.view)) {
        return fail(Error::Kind::Unsupported,
                    "Contacts are found in side views only: mark those of this clip by hand.");
    }
    return Plane::from(scene);
}

void tellRhythm(ContactFindings& findings, const std::vector<Stance>& placed)
{
    auto all = findings.stances;
    all.insert(all.end(), placed.begin(), placed.end());
    std::sort(all.begin(), all.end(), byContact);
    for (const auto& fault : rhythmFaults(all)) {
        findings.remarks.push_back(fault.sentence);
    }
}

bool isAmong(const std::vector<FootTimes>& feet, BodySide side)
{
    return std::any_of(feet.begin(), feet.end(),
                       [side](const FootTimes& foot) { return foot.side == side; });
}

Outcome<ContactFindings> findingsFrom(const std::vector<FootTimes>& feet, const Marking& marking,
                                      const FrameIndex& index, const Scene& scene)
{
    if (feet.empty()) {
        return fail(Error::Kind::Inconsistent,
                    "No foot's heel and toe are followed: mark heel and toe of one step and follow "
                    "them, then contacts can be found.");
    }
    ContactFindings findings;
    for (const auto side : {BodySide::Near, BodySide::Far}) {
        if (!isAmong(feet, side)) {
            findings.remarks.push_back(
                "The " + std::string(nameOf(footOf(side, scene.view))) +
                " foot has too few marks of heel and toe to find its contacts: mark both on one "
                "step and follow them.");
        }
    }
    for (const auto& foot : feet) {
        const double interval = foot.motion.times.back() / static_cast<double>(index.size() - 1);
        auto stances =
            newStances(foot.times, marking.stances, footOf(foot.side, scene.view), interval);
        findings.stances.insert(findings.stances.end(), stances.begin(), stances.end());
    }
    if (const auto remark = groundRemark(feet.front().motion, scene)) {
        findings.remarks.push_back(*remark);
    }
    std::sort(findings.stances.begin(), findings.stances.end(), byContact);
    tellRhythm(findings, marking.stances);
    return findings;
}

} // namespace

Outcome<ContactFindings> findContacts(const Marking& marking, const FrameIndex& index,
                                      const Scene& scene)
{
    ASSIGN_OR_RETURN(const auto plane, planeOf(scene));
    return findingsFrom(footTimesOf(bridged(marking, index), plane, index), marking, index, scene);
}

bool arePicturesOfUse(const Marking& marking, const FrameIndex& index, const Scene& scene)
{
    const auto plane = planeOf(scene);
    if (!plane) {
        return false;
    }
    const auto feet = footTimesOf(bridged(marking, index), *plane, index);
    return std::any_of(feet.begin(), feet.end(),
                       [](const FootTimes& foot) { return !foot.isSure; });
}

Outcome<ContactFindings> findContacts(ClipReader& clip, const Marking& marking, const Scene& scene,
                                      const std::function<bool(double)>& goOn)
{
    ASSIGN_OR_RETURN(const auto plane, planeOf(scene));
    auto feet = footTimesOf(bridged(marking, clip.index()), plane, clip.index());
    auto timed = timedByPictures(clip, marking, plane, feet, goOn);
    if (!timed && timed.error().kind == Error::Kind::Cancelled) {
        return fail(Error::Kind::Cancelled, "Finding contacts was stopped; nothing was changed.");
    }
    ASSIGN_OR_RETURN(auto findings,
                     findingsFrom(timed ? *timed : feet, marking, clip.index(), scene));
    if (!timed) {
        findings.remarks.push_back("The pictures could not be looked at, so that contacts go by "
                                   "the marks alone: " +
                                   timed.error().sentence);
    }
    return findings;
}

} // namespace latemile
