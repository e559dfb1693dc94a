// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/evidence.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

std::string stepWords(std::size_t step)
{
    return "step " + std::to_string(step + 1);
}

std::string landmarkWords(Landmark landmark, BodySide side)
{
    const bool pooled = side == BodySide::Near;
    return (pooled ? std::string{} : std::string(nameOf(side)) + " ") +
           std::string(nameOf(landmark));
}

template <class Key>
void insertOnce(std::vector<Key>& sorted, const Key& key)
{
    const auto place = std::lower_bound(sorted.begin(), sorted.end(), key);
    if (place == sorted.end() || *place != key) {
        sorted.insert(place, key);
    }
}

/// Straight line through the points at `t0` and `t1`, read at `t`.
PlanePoint between(PlanePoint a, PlanePoint b, double t0, double t1, double t)
{
    const double share = t1 > t0 ? (t - t0) / (t1 - t0) : 0.5;
    return {a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)};
}

} // namespace

Evidence Evidence::shifted(const Disturbance& disturbance) const
{
    Evidence evidence(m_clip, m_step);
    evidence.m_plain = this;
    evidence.m_disturbance = disturbance;
    return evidence;
}

void Evidence::setMissing(std::string reason)
{
    if (!m_missing) {
        m_missing = std::move(reason);
    }
}

std::optional<PlanePoint> Evidence::pointOn(const MarkKey& key, bool remember)
{
    const auto* point = m_clip.tracks.find(key);
    if (!point) {
        return std::nullopt;
    }
    if (remember && !m_plain) {
        insertOnce(m_marksUsed, key);
        insertOnce(m_marksRead, key);
    }
    const auto& d = m_disturbance;
    const bool moved = d.mark == key;
    if (!moved && d.scene.relativeScale == 0.0 && d.scene.rollRadians == 0.0) {
        return point->plane;
    }
    if (!moved) {
        return m_clip.plane.shifted(point->plane, d.scene);
    }
    const auto at = point->mark.at;
    return m_clip.plane.toPlane({at.u + d.markBy.u, at.v + d.markBy.v});
}

PlanePoint Evidence::notMarked(Landmark landmark, BodySide side, Instant instant, std::size_t step)
{
    setMissing(landmarkWords(landmark, side) + " not marked at " + std::string(nameOf(instant)) +
               ", " + stepWords(step));
    return {};
}

PlanePoint Evidence::at(Instant instant, Landmark landmark, BodySide side)
{
    if (instant == Instant::Contact || instant == Instant::ToeOff) {
        return atEvent(m_step, instant == Instant::ToeOff, landmark, side);
    }
    return onNearestFrame(m_step, instant, landmark, side);
}

PlanePoint Evidence::atNextStep(Instant instant, Landmark landmark, BodySide side)
{
    if (!hasNextStep()) {
        return {};
    }
    return onNearestFrame(m_step + 1, instant, landmark, side);
}

double Evidence::heightOverGround(Instant instant, Landmark landmark)
{
    const auto ground = m_clip.conditions.scene.groundV;
    if (!ground) {
        setMissing("no ground line is drawn");
        return 0.0;
    }
    const auto point = at(instant, landmark);
    const auto below = m_clip.plane.toPixel(point);
    return point.y - m_clip.plane.toPlane({below.u, *ground}, m_disturbance.scene).y;
}

BodySide Evidence::ownSide() const
{
    return step().foot == Foot::Left ? BodySide::Left : BodySide::Right;
}

bool Evidence::hasNextStep()
{
    if (!step().nextContact) {
        setMissing("the next contact of the other foot is not marked, " + stepWords(m_step));
    }
    return step().nextContact.has_value();
}

PlanePoint Evidence::atEvent(std::size_t step, bool toeOff, Landmark landmark, BodySide side)
{
    const auto instant = toeOff ? Instant::ToeOff : Instant::Contact;
    const auto& of = m_clip.steps[step];
    if (toeOff && !of.toeOff) {
        setMissing("toe-off of " + stepWords(step) + " not marked");
        return {};
    }
    const auto frame = m_clip.frameOf(step, instant);
    if (!frame) {
        setMissing(std::string(nameOf(instant)) + " of " + stepWords(step) +
                   " lies outside the clip");
        return {};
    }
    const auto here = pointOn({*frame, side, landmark});
    if (!here) {
        return notMarked(landmark, side, instant, step);
    }
    const auto before = FrameNumber{frame->value - 1};
    const auto earlier = pointOn({before, side, landmark});
    if (!earlier) {
        m_readLate = true;
        return *here;
    }
    const auto event = toeOff ? *of.toeOff : of.contact;
    const double shift = eventTime({step, toeOff}, event) - event.count();
    const auto at = between(*earlier, *here, m_clip.index.time(before).count(),
                            m_clip.index.time(*frame).count(), event.count());
    if (shift == 0.0) {
        return at;
    }
    const auto speed = velocityBeside(*frame, shift > 0.0, side, landmark);
    return {at.x + shift * speed.x, at.y + shift * speed.y};
}

std::optional<SpeedFrames> speedFrames(const PreparedClip& clip, FrameNumber first, bool after,
                                       BodySide side, Landmark landmark)
{
    // Three frames of a 240th of a second are 12.5 ms, whatever the division makes of them.
    const auto most = std::lround(std::ceil(velocityWidth / clip.frameInterval.count() - 0.01));
    for (auto apart = std::max(most, 1L); apart > 0; --apart) {
        const auto from = FrameNumber{after ? first.value - 1 : first.value - apart};
        const auto to = FrameNumber{from.value + apart};
        if (clip.tracks.find({from, side, landmark}) && clip.tracks.find({to, side, landmark})) {
            return SpeedFrames{from, to, (clip.index.time(to) - clip.index.time(from)).count()};
        }
    }
    return std::nullopt;
}

PlanePoint Evidence::velocityBeside(FrameNumber first, bool after, BodySide side, Landmark landmark)
{
    const auto frames = speedFrames(m_clip, first, after, side, landmark);
    if (!frames) {
        return {};
    }
    const auto& a = m_clip.tracks.find({frames->from, side, landmark})->plane;
    const auto& b = m_clip.tracks.find({frames->to, side, landmark})->plane;
    return {(b.x - a.x) / frames->seconds, (b.y - a.y) / frames->seconds};
}

PlanePoint Evidence::onNearestFrame(std::size_t step, Instant instant, Landmark landmark,
                                    BodySide side)
{
    const auto& of = m_clip.steps[step];
    const auto frame = m_clip.frameOf(step, instant);
    if (!frame) {
        setMissing(of.toeOff ? std::string(nameOf(instant)) + " of " + stepWords(step) +
                                   " lies outside the clip"
                             : "toe-off of " + stepWords(step) + " not marked");
        return {};
    }
    m_readMidway = true;
    const auto wanted = FrameNumber{frame->value + m_disturbance.framesLater};
    if (const auto point = pointOn({wanted, side, landmark})) {
        return *point;
    }
    return notMarked(landmark, side, instant, step);
}

PlanePoint Evidence::ankleAtContact(std::size_t step, BodySide side)
{
    auto ankle = atEvent(step, false, Landmark::Ankle, side);
    const auto frame = m_clip.frameOf(step, Instant::Contact);
    const bool isLate = frame && !m_clip.tracks.find({{frame->value - 1}, side, Landmark::Ankle});
    if (isLate && hasBelt() && !missing()) {
        // The belt takes a foot that has landed back with it: a frame too late for the event is as
        // much too late for the ankle.
        const auto contact = m_clip.steps[step].contact;
        const double later = eventTime({step, false}, contact) - contact.count();
        ankle.x -= 100.0 * *m_clip.conditions.scene.beltSpeed * later;
    }
    return ankle;
}

PlanePoint Evidence::ownAnkleAtContact()
{
    const bool isNear = m_clip.nearFoot() == step().foot;
    return ankleAtContact(m_step, isNear ? BodySide::Near : BodySide::Far);
}

PlanePoint Evidence::nextAnkleAtContact()
{
    if (!hasNextStep()) {
        return {};
    }
    const bool isNear = m_clip.nearFoot() == step().foot;
    return ankleAtContact(m_step + 1, isNear ? BodySide::Far : BodySide::Near);
}

double Evidence::eventTime(const EventKey& key, Seconds undisturbed)
{
    if (!m_plain) {
        insertOnce(m_eventsUsed, key);
    }
    const auto& d = m_disturbance;
    return undisturbed.count() + (d.event == key ? d.eventBy : 0.0);
}

double Evidence::contact()
{
    return eventTime({m_step, false}, step().contact);
}

double Evidence::toeOff()
{
    if (!step().toeOff) {
        setMissing("toe-off of " + stepWords(m_step) + " not marked");
        return 0.0;
    }
    return eventTime({m_step, true}, *step().toeOff);
}

double Evidence::nextContact()
{
    return hasNextStep() ? eventTime({m_step + 1, false}, *step().nextContact) : 0.0;
}

double Evidence::nextToeOff()
{
    if (!hasNextStep()) {
        return 0.0;
    }
    const auto& next = m_clip.steps[m_step + 1];
    if (!next.toeOff) {
        setMissing("toe-off of " + stepWords(m_step + 1) + " not marked");
        return 0.0;
    }
    return eventTime({m_step + 1, true}, *next.toeOff);
}

double Evidence::strideEnd()
{
    if (!step().strideEnd) {
        setMissing("the stride is not complete, " + stepWords(m_step));
        return 0.0;
    }
    return eventTime({m_step + 2, false}, *step().strideEnd);
}

Evidence::Run Evidence::longestRun()
{
    const auto& steps = m_clip.steps;
    std::size_t bestFrom = 0;
    std::size_t bestTo = 0;
    std::size_t from = 0;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        if (i > 0 && (!steps[i - 1].nextContact || steps[i - 1].gap)) {
            from = i;
        }
        if (i - from > bestTo - bestFrom) {
            bestFrom = from;
            bestTo = i;
        }
    }
    if (bestTo == bestFrom) {
        setMissing("fewer than two contacts of alternate feet are marked");
        return {0.0, 1.0, 1};
    }
    return {eventTime({bestFrom, false}, steps[bestFrom].contact),
            eventTime({bestTo, false}, steps[bestTo].contact), static_cast<int>(bestTo - bestFrom)};
}

Evidence::MeanStep Evidence::meanStep()
{
    MeanStep mean;
    int contacts = 0;
    int flights = 0;
    for (std::size_t i = 0; i < m_clip.steps.size(); ++i) {
        const auto& of = m_clip.steps[i];
        if (!of.toeOff || of.gap) {
            continue;
        }
        const double toeOff = eventTime({i, true}, *of.toeOff);
        mean.contact += toeOff - eventTime({i, false}, of.contact);
        ++contacts;
        if (of.nextContact) {
            mean.flight += eventTime({i + 1, false}, *of.nextContact) - toeOff;
            ++flights;
        }
    }
    if (flights == 0) {
        setMissing("no whole step is marked");
        return {1.0, 1.0};
    }
    return {mean.contact / contacts, mean.flight / flights};
}

} // namespace latemile
