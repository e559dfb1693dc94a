// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/truth.hpp"

#include "sample_clips/maker/truth_measures.hpp"

#include <algorithm>
#include <cmath>

namespace latemile::maker {

namespace {
SideMarks marksOf(const Camera& camera, const Pose& pose, Foot side)
{
    SideMarks marks;
    const auto places = placesOf(pose, side);
    std::transform(places.begin(), places.end(), marks.begin(),
                   [&camera](Vec3 place) { return camera.project(place); });
    return marks;
}

std::size_t firstAtOrAfter(const std::vector<FrameTime>& times, double seconds)
{
    const auto it =
        std::lower_bound(times.begin(), times.end(), seconds,
                         [](const FrameTime& frame, double time) { return frame.seconds < time; });
    return static_cast<std::size_t>(it - times.begin());
}

std::vector<ContactTruth> contactsOf(const RunnerModel& model, const std::vector<FrameTime>& times)
{
    std::vector<ContactTruth> contacts;
    const auto rule = [&times](std::size_t first) {
        return 0.5 * (times[first - 1].seconds + times[first].seconds);
    };
    for (const auto& fall : model.footfalls()) {
        const std::size_t on = firstAtOrAfter(times, fall.contact);
        const std::size_t clear = firstAtOrAfter(times, fall.toeOff);
        if (on >= 1 && clear > on && clear < times.size()) {
            contacts.push_back({.foot = fall.foot,
                                .contact = fall.contact,
                                .toeOff = fall.toeOff,
                                .firstOn = on,
                                .firstClear = clear,
                                .ruleContact = rule(on),
                                .ruleToeOff = rule(clear)});
        }
    }
    return contacts;
}
} // namespace

std::array<Vec3, landmarkNames.size()> placesOf(const Pose& pose, Foot side)
{
    const SidePose& it = pose.of(side);
    const Vec2 counter = turned({0.4, 8.0}, it.shoePitch);
    const Vec3 heelTop = it.heel + Vec3{counter.x, counter.y, 0.0};
    // The rear iliac spines lie about 8 cm behind and 9 cm above the hips, at half their width.
    const Vec3 spine = blend(pose.pelvis, it.upper.hip, 0.5) + Vec3{-8.0, 9.0, 0.0};
    return {it.upper.ear, it.upper.shoulder, it.upper.elbow, it.upper.wrist, it.upper.hip, it.knee,
            it.ankle,     it.heel,           it.toe,         heelTop,        spine};
}

Truth truthOf(const ClipRecipe& recipe, const RunnerModel& model, std::vector<FrameTime> times)
{
    const Camera camera(recipe.camera);
    const Room room(recipe);
    const Body& body = model.body();
    Truth truth;
    truth.recipe = recipe;
    truth.times = std::move(times);
    for (const auto& time : truth.times) {
        const Pose pose = model.pose(time.seconds);
        truth.frames.push_back(
            {time.seconds, marksOf(camera, pose, Foot::Left), marksOf(camera, pose, Foot::Right)});
    }
    truth.contacts = contactsOf(model, truth.times);
    truth.legLengthCm = body.thigh + body.shank + body.ankle.y;
    truth.scaleBottom = camera.project(room.pole().bottom);
    truth.scaleTop = camera.project(room.pole().top);
    truth.scaleLengthCm = room.pole().lengthCm;
    truth.groundY = camera.project({}).v;
    truth.pixelsPerCm = camera.pixelsPerCm({});
    truth.focal = camera.focal();
    if (recipe.camera.view != View::Rear) {
        truth.readings = sideReadings(truth, model);
    }
    return truth;
}

} // namespace latemile::maker
