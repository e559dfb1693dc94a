// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/practice/clip_truth.hpp"

#include "core/json_file.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {
namespace {

Outcome<std::vector<Landmark>> orderFrom(const JsonField& document)
{
    ASSIGN_OR_RETURN(const auto list, document.member("landmark_order"));
    ASSIGN_OR_RETURN(const auto words, list.items());
    std::vector<Landmark> order;
    for (const JsonField& field : words) {
        ASSIGN_OR_RETURN(const auto word, field.text());
        const auto landmark = landmarkNamed(word);
        if (!landmark) {
            return field.fault("'" + word + "' is no landmark");
        }
        order.push_back(*landmark);
    }
    return order;
}

Outcome<std::map<Landmark, PixelPoint>> pointsFrom(const JsonField& frame, const char* side,
                                                   const std::vector<Landmark>& order)
{
    ASSIGN_OR_RETURN(const auto list, frame.member(side));
    ASSIGN_OR_RETURN(const auto rows, list.items());
    std::map<Landmark, PixelPoint> points;
    for (std::size_t at = 0; at < std::min(rows.size(), order.size()); ++at) {
        ASSIGN_OR_RETURN(const auto place, rows[at].numbers(2));
        points[order[at]] = {place[0], place[1]};
    }
    return points;
}

Outcome<std::vector<ClipTruth::Event>> eventsFrom(const JsonField& document)
{
    ASSIGN_OR_RETURN(const auto list, document.member("contacts"));
    ASSIGN_OR_RETURN(const auto contacts, list.items());
    std::vector<ClipTruth::Event> events;
    for (const JsonField& contact : contacts) {
        ASSIGN_OR_RETURN(const auto side, contact.text("side"));
        const Foot foot = side == "right" ? Foot::Right : Foot::Left;
        ASSIGN_OR_RETURN(const double on, contact.number("contact_s"));
        ASSIGN_OR_RETURN(const double off, contact.number("toe_off_s"));
        events.push_back({foot, false, Seconds{on}});
        events.push_back({foot, true, Seconds{off}});
    }
    std::ranges::sort(events, {}, &ClipTruth::Event::time);
    return events;
}

/// Nothing where the clip has no event of that foot and kind.
const ClipTruth::Event* nearest(const ClipTruth& truth, Foot foot, bool isToeOff, Seconds time)
{
    const ClipTruth::Event* best = nullptr;
    for (const ClipTruth::Event& event : truth.events) {
        const bool fits = event.foot == foot && event.isToeOff == isToeOff;
        if (fits && (!best || std::abs((event.time - time).count()) <
                                  std::abs((best->time - time).count()))) {
            best = &event;
        }
    }
    return best;
}

} // namespace

Outcome<ClipTruth> readClipTruth(const std::filesystem::path& clip)
{
    auto file = clip;
    file.replace_extension(".truth.json");
    ASSIGN_OR_RETURN(const auto json, readJsonFile(file));
    const JsonField document(json, file.filename().string());
    ASSIGN_OR_RETURN(const auto view, document.text("view"));
    if (view != "side") {
        return document.fault("only a clip from the side has a near side to practise on");
    }
    ClipTruth truth;
    ASSIGN_OR_RETURN(const auto near, document.text("near_side"));
    const char* side = near == "right" ? "R" : "L";
    ASSIGN_OR_RETURN(const auto scale, document.member("scale"));
    ASSIGN_OR_RETURN(truth.pixelsPerCm, scale.number("px_per_cm_near_hip", aboveZero));
    ASSIGN_OR_RETURN(const auto order, orderFrom(document));
    ASSIGN_OR_RETURN(const auto list, document.member("frames"));
    ASSIGN_OR_RETURN(const auto frames, list.items());
    for (const JsonField& frame : frames) {
        ASSIGN_OR_RETURN(auto points, pointsFrom(frame, side, order));
        truth.frames.push_back(std::move(points));
    }
    ASSIGN_OR_RETURN(truth.events, eventsFrom(document));
    return truth;
}

std::vector<MarkMiss> missesOf(const Marking& marking, FrameNumber frame, const ClipTruth& truth)
{
    std::vector<MarkMiss> misses;
    if (frame.value < 0 || frame.value >= static_cast<std::int64_t>(truth.frames.size())) {
        return misses;
    }
    const auto& points = truth.frames[static_cast<std::size_t>(frame.value)];
    for (const Landmark landmark : sideViewLandmarks) {
        const auto point = points.find(landmark);
        const Mark* mark = marking.find({frame, BodySide::Near, landmark});
        if (mark && mark->origin == Origin::Placed && point != points.end()) {
            const double pixels =
                std::hypot(mark->at.u - point->second.u, mark->at.v - point->second.v);
            misses.push_back({landmark, point->second, pixels, pixels / truth.pixelsPerCm});
        }
    }
    return misses;
}

std::vector<EventMiss> missesOf(const std::vector<Stance>& stances, const ClipTruth& truth)
{
    std::vector<EventMiss> misses;
    const auto add = [&](Foot foot, bool isToeOff, Seconds marked) {
        if (const auto* event = nearest(truth, foot, isToeOff, marked)) {
            misses.push_back({foot, isToeOff, marked, marked - event->time});
        }
    };
    for (const Stance& stance : stances) {
        if (stance.origin != Origin::Placed) {
            continue;
        }
        add(stance.foot, false, stance.contact);
        if (stance.toeOff) {
            add(stance.foot, true, *stance.toeOff);
        }
    }
    std::ranges::sort(misses, {}, &EventMiss::marked);
    return misses;
}

} // namespace latemile
