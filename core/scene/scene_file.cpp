// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/document_schema.hpp"
#include "core/json_file.hpp"
#include "core/json_or_null.hpp"
#include "core/scene/plane.hpp"
#include "core/scene/scene.hpp"

#include <string>
#include <utility>

namespace latemile {

namespace {

using nlohmann::json;

Outcome<View> viewFrom(const JsonField& document)
{
    ASSIGN_OR_RETURN(const auto field, document.member("view"));
    ASSIGN_OR_RETURN(const auto word, field.text());
    for (const auto view : {View::LeftSide, View::RightSide, View::Rear, View::Front}) {
        if (word == nameOf(view)) {
            return view;
        }
    }
    return field.fault("'" + word + "' is none of left-side, right-side, rear and front");
}

Outcome<Travel> travelFrom(const JsonField& document, View view)
{
    ASSIGN_OR_RETURN(const auto field, document.maybe("travel"));
    if (!field && !isSideView(view)) {
        return Travel::Right; // seen from behind or in front nothing depends on it
    }
    ASSIGN_OR_RETURN(const auto word, document.text("travel"));
    if (word == "left" || word == "right") {
        return word == "left" ? Travel::Left : Travel::Right;
    }
    return field->fault("'" + word + "' is neither left nor right");
}

Outcome<PixelPoint> pointFrom(const JsonField& parent, std::string_view key)
{
    ASSIGN_OR_RETURN(const auto field, parent.member(key));
    ASSIGN_OR_RETURN(const auto numbers, field.numbers(2));
    return PixelPoint{numbers[0], numbers[1]};
}

Outcome<ScaleLine> scaleLineFrom(const JsonField& field)
{
    ASSIGN_OR_RETURN(const auto a, pointFrom(field, "a"));
    ASSIGN_OR_RETURN(const auto b, pointFrom(field, "b"));
    ASSIGN_OR_RETURN(const auto length, field.number("length_cm", aboveZero));
    if (a == b) {
        return field.fault(
            "the scale line has no length on the picture: draw it from one end of the pole "
            "or tape to the other");
    }
    return ScaleLine{a, b, length};
}

Outcome<std::optional<ScaleLine>> scaleFrom(const JsonField& document)
{
    ASSIGN_OR_RETURN(const auto field, document.maybe("scale"));
    if (!field) {
        return std::optional<ScaleLine>{};
    }
    ASSIGN_OR_RETURN(auto line, scaleLineFrom(*field));
    return std::optional(line);
}

Outcome<std::vector<ScaleLine>> moreScalesFrom(const JsonField& document, bool hasScale)
{
    std::vector<ScaleLine> lines;
    ASSIGN_OR_RETURN(const auto field, document.maybe("more_scales"));
    if (!field) {
        return lines;
    }
    if (!hasScale) {
        return field->fault("further scale lines stand beside the first one: give it in 'scale'");
    }
    ASSIGN_OR_RETURN(const auto items, field->items());
    for (const auto& item : items) {
        ASSIGN_OR_RETURN(const auto line, scaleLineFrom(item));
        lines.push_back(line);
    }
    return lines;
}

Outcome<bool> scaleByBeltFrom(const JsonField& document)
{
    ASSIGN_OR_RETURN(const auto field, document.maybe("scale_by_belt"));
    if (!field) {
        return false;
    }
    return field->boolean();
}

Outcome<std::optional<PlumbLine>> plumbFrom(const JsonField& document)
{
    ASSIGN_OR_RETURN(const auto field, document.maybe("plumb"));
    if (!field) {
        return std::optional<PlumbLine>{};
    }
    ASSIGN_OR_RETURN(const auto top, pointFrom(*field, "top"));
    ASSIGN_OR_RETURN(const auto bottom, pointFrom(*field, "bottom"));
    if (!(top.v < bottom.v)) {
        return field->fault("the top of the plumb line must be above its bottom in the picture");
    }
    return std::optional(PlumbLine{top, bottom});
}

Outcome<std::optional<double>> groundFrom(const JsonField& document)
{
    ASSIGN_OR_RETURN(const auto field, document.maybe("ground"));
    if (!field) {
        return std::optional<double>{};
    }
    ASSIGN_OR_RETURN(const double row, field->number("y_px"));
    return std::optional(row);
}

Outcome<std::optional<Lens>> lensFrom(const JsonField& document)
{
    ASSIGN_OR_RETURN(const auto field, document.maybe("lens"));
    if (!field) {
        return std::optional<Lens>{};
    }
    Lens lens;
    for (const auto& [key, member] : {std::pair{"fx", &Lens::fx}, std::pair{"fy", &Lens::fy}}) {
        ASSIGN_OR_RETURN(lens.*member, field->number(key, aboveZero));
    }
    for (const auto& [key, member] : {std::pair{"cx", &Lens::cx}, std::pair{"cy", &Lens::cy}}) {
        ASSIGN_OR_RETURN(lens.*member, field->number(key));
    }
    for (const auto& [key, member] :
         {std::pair{"k1", &Lens::k1}, std::pair{"k2", &Lens::k2}, std::pair{"p1", &Lens::p1},
          std::pair{"p2", &Lens::p2}, std::pair{"k3", &Lens::k3}}) {
        ASSIGN_OR_RETURN(const auto coefficient, field->optionalNumber(key));
        lens.*member = coefficient.value_or(0.0);
    }
    return std::optional(lens);
}

Outcome<std::optional<PlaneCorners>> cornersFrom(const JsonField& document)
{
    ASSIGN_OR_RETURN(const auto field, document.maybe("plane"));
    if (!field) {
        return std::optional<PlaneCorners>{};
    }
    PlaneCorners corners;
    ASSIGN_OR_RETURN(const auto image, field->member("image"));
    ASSIGN_OR_RETURN(const auto inImage, image.items());
    ASSIGN_OR_RETURN(const auto cm, field->member("cm"));
    ASSIGN_OR_RETURN(const auto inCm, cm.items());
    if (inImage.size() != 4 || inCm.size() != 4) {
        return field->fault("four corners are needed in 'image' and in 'cm'");
    }
    for (std::size_t i = 0; i < 4; ++i) {
        ASSIGN_OR_RETURN(const auto pixel, inImage[i].numbers(2));
        ASSIGN_OR_RETURN(const auto place, inCm[i].numbers(2));
        corners.image[i] = {pixel[0], pixel[1]};
        corners.cm[i] = {place[0], place[1]};
    }
    return std::optional(corners);
}

json pointJson(PixelPoint point)
{
    return json::array({point.u, point.v});
}

json scaleJson(const ScaleLine& line)
{
    return {{"a", pointJson(line.a)}, {"b", pointJson(line.b)}, {"length_cm", line.lengthCm}};
}

json cornersJson(const PlaneCorners& corners)
{
    json document{{"image", json::array()}, {"cm", json::array()}};
    for (std::size_t i = 0; i < 4; ++i) {
        document["image"].push_back(pointJson(corners.image[i]));
        document["cm"].push_back(corners.cm[i]);
    }
    return document;
}

} // namespace

Outcome<Scene> sceneFrom(const json& document, std::string_view where)
{
    const JsonField field(document, std::string(where));
    ASSIGN_OR_RETURN(const auto version, field.maybe("version"));
    if (version) {
        RETURN_IF_ERROR(needVersion(field, 1));
    }
    Scene scene;
    ASSIGN_OR_RETURN(scene.view, viewFrom(field));
    ASSIGN_OR_RETURN(scene.travel, travelFrom(field, scene.view));
    ASSIGN_OR_RETURN(scene.scale, scaleFrom(field));
    ASSIGN_OR_RETURN(scene.moreScales, moreScalesFrom(field, scene.scale.has_value()));
    ASSIGN_OR_RETURN(scene.plumb, plumbFrom(field));
    ASSIGN_OR_RETURN(scene.groundV, groundFrom(field));
    ASSIGN_OR_RETURN(scene.captureRate,
                     field.optionalNumber("capture_fps", NumberRange{1.0, 100000.0}));
    ASSIGN_OR_RETURN(scene.beltSpeed,
                     field.optionalNumber("belt_speed_mps", NumberRange{0.1, 15.0}));
    ASSIGN_OR_RETURN(scene.scaleByBelt, scaleByBeltFrom(field));
    ASSIGN_OR_RETURN(scene.lens, lensFrom(field));
    ASSIGN_OR_RETURN(scene.plane, cornersFrom(field));
    return scene;
}

Outcome<Scene> readScene(const std::filesystem::path& file)
{
    ASSIGN_OR_RETURN(const auto document, readJsonFile(file));
    const auto name = file.string();
    ASSIGN_OR_RETURN(auto scene, sceneFrom(document, name));
    RETURN_IF_ERROR(needSchema(JsonField(document, name), "scene"));
    // A scene that fixes no plane is of no use to whoever reads one from a file.
    if (const auto plane = Plane::from(scene); !plane) {
        return fail(plane.error().kind, name + ": " + plane.error().sentence, plane.error().detail);
    }
    return scene;
}

json toJson(const Scene& scene)
{
    json document{{"view", nameOf(scene.view)},
                  {"travel", nameOf(scene.travel)},
                  {"scale", nullptr},
                  {"plumb", nullptr},
                  {"ground", nullptr},
                  {"capture_fps", orNull(scene.captureRate)},
                  {"belt_speed_mps", orNull(scene.beltSpeed)},
                  {"lens", nullptr},
                  {"plane", nullptr}};
    if (scene.scale) {
        document["scale"] = scaleJson(*scene.scale);
    }
    for (const auto& line : scene.moreScales) {
        document["more_scales"].push_back(scaleJson(line));
    }
    if (scene.scaleByBelt) {
        document["scale_by_belt"] = true;
    }
    if (scene.plumb) {
        document["plumb"] = {{"top", pointJson(scene.plumb->top)},
                             {"bottom", pointJson(scene.plumb->bottom)}};
    }
    if (scene.groundV) {
        document["ground"] = {{"y_px", *scene.groundV}};
    }
    if (scene.lens) {
        const auto& l = *scene.lens;
        document["lens"] = {{"fx", l.fx}, {"fy", l.fy}, {"cx", l.cx}, {"cy", l.cy}, {"k1", l.k1},
                            {"k2", l.k2}, {"p1", l.p1}, {"p2", l.p2}, {"k3", l.k3}};
    }
    if (scene.plane) {
        document["plane"] = cornersJson(*scene.plane);
    }
    return document;
}

} // namespace latemile
