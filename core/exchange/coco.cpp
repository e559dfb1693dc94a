// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/coco.hpp"

#include "core/exchange/marked_points.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <utility>

namespace latemile {

namespace {

using nlohmann::json;

constexpr std::array<std::pair<Landmark, Landmark>, 8> limbs{{{Landmark::Ear, Landmark::Shoulder},
                                                              {Landmark::Shoulder, Landmark::Elbow},
                                                              {Landmark::Elbow, Landmark::Wrist},
                                                              {Landmark::Shoulder, Landmark::Hip},
                                                              {Landmark::Hip, Landmark::Knee},
                                                              {Landmark::Knee, Landmark::Ankle},
                                                              {Landmark::Ankle, Landmark::Heel},
                                                              {Landmark::Heel, Landmark::Toe}}};

/// Pairs of keypoints joined by a line, counted from 1 as COCO does.
json skeletonOf(const std::vector<MarkedPoint>& points)
{
    auto skeleton = json::array();
    const auto at = [&points](BodySide side, Landmark landmark) {
        return std::ranges::find(points, MarkedPoint{side, landmark}) - points.begin();
    };
    const auto count = std::ssize(points);
    for (const auto side : {BodySide::Near, BodySide::Far, BodySide::Left, BodySide::Right}) {
        for (const auto& [one, other] : limbs) {
            const auto from = at(side, one);
            const auto to = at(side, other);
            if (from < count && to < count) {
                skeleton.push_back({from + 1, to + 1});
            }
        }
    }
    return skeleton;
}

json categoryOf(const std::vector<MarkedPoint>& points)
{
    auto names = json::array();
    for (const auto& point : points) {
        names.push_back(nameOf(point));
    }
    return {{"id", 1},
            {"name", "person"},
            {"supercategory", "person"},
            {"keypoints", names},
            {"skeleton", skeletonOf(points)}};
}

/// The rectangle round the marked points, as COCO wants one.
struct Box {
    PixelPoint from;
    PixelPoint to;
    bool empty{true};

    void take(PixelPoint point)
    {
        from = empty ? point : PixelPoint{std::min(from.u, point.u), std::min(from.v, point.v)};
        to = empty ? point : PixelPoint{std::max(to.u, point.u), std::max(to.v, point.v)};
        empty = false;
    }
};

json annotationOf(const Marking& marking, FrameNumber frame, const std::vector<MarkedPoint>& points)
{
    auto keypoints = json::array();
    auto origins = json::array();
    auto errors = json::array();
    Box box;
    int marked = 0;
    for (const auto& point : points) {
        const auto* mark = marking.find({frame, point.side, point.landmark});
        if (mark == nullptr) {
            keypoints.insert(keypoints.end(), {0, 0, 0});
            origins.push_back(nullptr);
            errors.push_back(nullptr);
            continue;
        }
        ++marked;
        box.take(mark->at);
        keypoints.insert(keypoints.end(), {json(mark->at.u), json(mark->at.v), json(2)});
        origins.push_back(nameOf(mark->origin));
        errors.push_back(mark->sePx ? json(*mark->sePx) : json());
    }
    const double wide = box.to.u - box.from.u;
    const double high = box.to.v - box.from.v;
    return {{"id", frame.value + 1},   {"image_id", frame.value + 1},
            {"category_id", 1},        {"iscrowd", 0},
            {"num_keypoints", marked}, {"bbox", {box.from.u, box.from.v, wide, high}},
            {"area", wide * high},     {"keypoints", keypoints},
            {"origin", origins},       {"se_px", errors}};
}

json imageOf(FrameNumber frame, const FrameIndex& index, const ClipPicture& clip)
{
    return {{"id", frame.value + 1}, {"file_name", clip.file},
            {"width", clip.width},   {"height", clip.height},
            {"frame", frame.value},  {"time_s", index.time(frame).count()}};
}

} // namespace

json cocoKeypoints(const Marking& marking, const FrameIndex& index, const ClipPicture& clip)
{
    const auto points = markedPoints(marking);
    auto images = json::array();
    auto annotations = json::array();
    auto last = FrameNumber{-1};
    for (const auto& [key, mark] : marking.marks) {
        if (key.frame != last) {
            images.push_back(imageOf(key.frame, index, clip));
            annotations.push_back(annotationOf(marking, key.frame, points));
            last = key.frame;
        }
    }
    return {{"info",
             {{"description", "Landmarks of a running clip; pixels of the upright picture, whose "
                              "top left corner is 0, 0 and whose pixel centres lie at .5"}}},
            {"categories", json::array({categoryOf(points)})},
            {"images", images},
            {"annotations", annotations}};
}

} // namespace latemile
