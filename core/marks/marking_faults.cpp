// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/marks/marking_faults.hpp"

#include "core/csv.hpp"

namespace latemile {

namespace {

/// A covered point is guessed and may lie outside the picture, by at most this share of it.
constexpr double mayLieOutside = 0.5;
/// An event may lie within the time the last frame is shown; written times are rounded.
constexpr double pastLastFrame = 1.1;

std::string seconds(Seconds time)
{
    return numberText(time.count()) + " s";
}

std::optional<MarkingFault> outside(std::string_view field, double place, int size)
{
    const double margin = mayLieOutside * size;
    if (place >= -margin && place <= size + margin) {
        return std::nullopt;
    }
    return MarkingFault{
        field, "the place " + numberText(place) + " lies far outside the picture, which is " +
                   std::to_string(size) + " pixels " + (field == "x_px" ? "wide" : "high")};
}

std::optional<MarkingFault> afterEnd(std::string_view field, Seconds time, const FrameIndex& index)
{
    const FrameNumber last{index.size() - 1};
    if (index.size() > 0 && time <= index.time(last) + pastLastFrame * index.interval(last)) {
        return std::nullopt;
    }
    return MarkingFault{field, "the time " + seconds(time) + " lies after the end of the clip"};
}

} // namespace

std::optional<MarkingFault> faultOf(const MarkKey& key, const Mark& mark)
{
    if (key.frame.value < 0) {
        return MarkingFault{"frame", "frames are counted from 0"};
    }
    if (mark.sePx && *mark.sePx < 0) {
        return MarkingFault{"se_px", "a standard error is never below 0"};
    }
    return std::nullopt;
}

std::optional<MarkingFault> faultOf(const MarkKey& key, const Mark& mark, const FrameIndex& index,
                                    int width, int height)
{
    if (!index.contains(key.frame)) {
        return MarkingFault{"frame", "the clip has no frame " + std::to_string(key.frame.value) +
                                         ", its last is " + std::to_string(index.size() - 1)};
    }
    if (auto fault = outside("x_px", mark.at.u, width)) {
        return fault;
    }
    return outside("y_px", mark.at.v, height);
}

std::optional<MarkingFault> faultOf(const Stance& stance)
{
    if (stance.contact.count() < 0) {
        return MarkingFault{"contact_s", "times are counted from the first frame, at 0 s"};
    }
    if (stance.toeOff && *stance.toeOff <= stance.contact) {
        return MarkingFault{"toe_off_s", "the toe-off at " + seconds(*stance.toeOff) +
                                             " is not after the contact at " +
                                             seconds(stance.contact)};
    }
    if (stance.se && stance.se->count() < 0) {
        return MarkingFault{"se_s", "a standard error is never below 0"};
    }
    return std::nullopt;
}

std::optional<MarkingFault> faultOf(const Stance& stance, const FrameIndex& index)
{
    if (auto fault = afterEnd("contact_s", stance.contact, index)) {
        return fault;
    }
    return stance.toeOff ? afterEnd("toe_off_s", *stance.toeOff, index) : std::nullopt;
}

std::optional<MarkingFault> faultBetween(const Stance& earlier, const Stance& later)
{
    if (later.contact > earlier.toeOff.value_or(earlier.contact)) {
        return std::nullopt;
    }
    return MarkingFault{"contact_s", "the " + std::string(nameOf(later.foot)) + " foot lands at " +
                                         seconds(later.contact) +
                                         " while it is still on the ground from " +
                                         seconds(earlier.contact)};
}

} // namespace latemile
