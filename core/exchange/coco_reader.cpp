// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/coco.hpp"

#include "core/exchange/marked_points.hpp"
#include "core/json_file.hpp"
#include "core/marks/marking_faults.hpp"

#include <algorithm>
#include <limits>
#include <set>

namespace latemile {

namespace {

constexpr auto anyId = std::numeric_limits<std::int64_t>::max();

/// What the annotations of a file are read against.
struct Against {
    const FrameIndex& index;
    int width;
    int height;
    std::vector<MarkedPoint> points{};
    std::map<std::int64_t, FrameNumber> frames{}; ///< by the image's id
};

Outcome<std::int64_t> integerOf(const JsonField& object, std::string_view key)
{
    ASSIGN_OR_RETURN(const auto field, object.member(key));
    return field.integer(0, anyId);
}

Outcome<MarkedPoint> pointNamed(const JsonField& field)
{
    ASSIGN_OR_RETURN(const auto name, field.text());
    const auto dash = name.find('_');
    const auto side = bodySideNamed(std::string_view(name).substr(0, dash));
    const auto landmark = dash == std::string::npos
                              ? std::nullopt
                              : landmarkNamed(std::string_view(name).substr(dash + 1));
    if (!side || !landmark) {
        return field.fault("'" + name + "' is none of the landmarks, such as near_ear or far_toe");
    }
    return MarkedPoint{*side, *landmark};
}

Outcome<void> readPoints(const JsonField& document, Against& against)
{
    ASSIGN_OR_RETURN(const auto list, document.member("categories"));
    ASSIGN_OR_RETURN(const auto categories, list.items());
    if (categories.size() != 1) {
        return list.fault("one category is wanted, the runner's");
    }
    ASSIGN_OR_RETURN(const auto names, categories.front().member("keypoints"));
    ASSIGN_OR_RETURN(const auto items, names.items());
    for (const auto& item : items) {
        ASSIGN_OR_RETURN(const auto point, pointNamed(item));
        if (std::ranges::find(against.points, point) != against.points.end()) {
            return item.fault("the " + nameOf(point) + " stands here twice");
        }
        against.points.push_back(point);
    }
    return {};
}

Outcome<void> readImage(const JsonField& image, Against& against)
{
    ASSIGN_OR_RETURN(const auto id, integerOf(image, "id"));
    ASSIGN_OR_RETURN(const auto frame, integerOf(image, "frame"));
    ASSIGN_OR_RETURN(const auto width, integerOf(image, "width"));
    ASSIGN_OR_RETURN(const auto height, integerOf(image, "height"));
    if (width != against.width || height != against.height) {
        return image.fault("a picture of " + std::to_string(width) + " x " +
                               std::to_string(height) + " pixels, but the clip's has " +
                               std::to_string(against.width) + " x " +
                               std::to_string(against.height) + ": marks of another clip",
                           Error::Kind::Inconsistent);
    }
    if (!against.frames.emplace(id, FrameNumber{frame}).second) {
        return image.fault("the image " + std::to_string(id) + " stands here twice");
    }
    return {};
}

/// Of one annotation: field by field a value a keypoint; absent fields give none.
struct Lists {
    std::vector<double> keypoints;
    std::vector<JsonField> origins;
    std::vector<JsonField> errors;
};

Outcome<std::vector<JsonField>> listOf(const JsonField& annotation, std::string_view key,
                                       std::size_t count)
{
    ASSIGN_OR_RETURN(const auto list, annotation.maybe(key));
    if (!list) {
        return std::vector<JsonField>();
    }
    ASSIGN_OR_RETURN(auto items, list->items());
    if (items.size() != count) {
        return list->fault("one value a keypoint is wanted, " + std::to_string(count) + " in all");
    }
    return items;
}

Outcome<Lists> listsOf(const JsonField& annotation, std::size_t count)
{
    ASSIGN_OR_RETURN(const auto keypoints, annotation.member("keypoints"));
    Lists lists;
    ASSIGN_OR_RETURN(lists.keypoints, keypoints.numbers(3 * count));
    ASSIGN_OR_RETURN(lists.origins, listOf(annotation, "origin", count));
    ASSIGN_OR_RETURN(lists.errors, listOf(annotation, "se_px", count));
    return lists;
}

Outcome<Mark> markOf(const Lists& lists, std::size_t at)
{
    Mark mark{
        {lists.keypoints[3 * at], lists.keypoints[3 * at + 1]}, Origin::Proposed, std::nullopt};
    if (!lists.origins.empty()) {
        ASSIGN_OR_RETURN(const auto word, lists.origins[at].text());
        const auto origin = originNamed(word);
        if (!origin) {
            return lists.origins[at].fault("'" + word + "' is not placed, followed or proposed");
        }
        mark.origin = *origin;
    }
    if (!lists.errors.empty() && !lists.errors[at].value().is_null()) {
        ASSIGN_OR_RETURN(mark.sePx, lists.errors[at].number(notNegative));
    }
    return mark;
}

Outcome<void> readAnnotation(const JsonField& annotation, const Against& against,
                             std::map<MarkKey, Mark>& marks)
{
    ASSIGN_OR_RETURN(const auto image, integerOf(annotation, "image_id"));
    const auto frame = against.frames.find(image);
    if (frame == against.frames.end()) {
        return annotation.fault("there is no image " + std::to_string(image));
    }
    ASSIGN_OR_RETURN(const auto lists, listsOf(annotation, against.points.size()));
    for (std::size_t i = 0; i < against.points.size(); ++i) {
        if (lists.keypoints[3 * i + 2] <= 0.0) {
            continue;
        }
        ASSIGN_OR_RETURN(const auto mark, markOf(lists, i));
        const MarkKey key{frame->second, against.points[i].side, against.points[i].landmark};
        if (const auto fault = faultOf(key, mark, against.index, against.width, against.height)) {
            return annotation.fault(nameOf(against.points[i]) + ": " + fault->what);
        }
        if (!marks.emplace(key, mark).second) {
            return annotation.fault("the " + nameOf(against.points[i]) +
                                    " is marked twice on frame " + std::to_string(key.frame.value));
        }
    }
    return {};
}

} // namespace

Outcome<std::map<MarkKey, Mark>> readCoco(const std::filesystem::path& file,
                                          const FrameIndex& index, int width, int height)
{
    ASSIGN_OR_RETURN(const auto json, readJsonFile(file));
    const JsonField document(json, file.filename().string());
    Against against{index, width, height};
    RETURN_IF_ERROR(readPoints(document, against));
    ASSIGN_OR_RETURN(const auto images, document.member("images"));
    ASSIGN_OR_RETURN(const auto imageList, images.items());
    for (const auto& image : imageList) {
        RETURN_IF_ERROR(readImage(image, against));
    }
    ASSIGN_OR_RETURN(const auto annotations, document.member("annotations"));
    ASSIGN_OR_RETURN(const auto annotationList, annotations.items());
    std::map<MarkKey, Mark> marks;
    for (const auto& annotation : annotationList) {
        RETURN_IF_ERROR(readAnnotation(annotation, against, marks));
    }
    return marks;
}

} // namespace latemile
