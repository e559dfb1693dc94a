// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/truth_files.hpp"

#include "core/decimal_text.hpp"
#include "sample_clips/maker/names.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <set>

namespace latemile::maker {

namespace {
using Json = nlohmann::ordered_json;

double rounded(double value, double steps)
{
    return std::round(value * steps) / steps;
}

Json pixel(PixelPoint p)
{
    return {rounded(p.u, 1e4), rounded(p.v, 1e4)};
}

Outcome<void> writeText(const std::filesystem::path& file, const std::string& text)
{
    std::ofstream out(file, std::ios::binary | std::ios::trunc);
    out << text;
    out.close();
    if (!out) {
        std::error_code ignored;
        std::filesystem::remove(file, ignored);
        return fail(Error::Kind::DiskFull, "The file " + file.string() +
                                               " could not be written: is there room, and may you "
                                               "write there?");
    }
    return {};
}

bool isRear(const Truth& truth)
{
    return truth.recipe.camera.view == View::Rear;
}

/// The side names of the exchange files, the near (rear: left) side first.
struct Sides {
    const char* firstName;
    const char* secondName;
    bool leftFirst;
};
Sides sidesOf(const Truth& truth)
{
    if (isRear(truth)) {
        return {"left", "right", true};
    }
    return {"near", "far", truth.recipe.camera.view == View::LeftSide};
}

std::size_t landmarkCount(const Truth& truth)
{
    return isRear(truth) ? landmarkNames.size() : landmarkNames.size() - 2;
}

Json lensOf(const Truth& truth)
{
    const auto& camera = truth.recipe.camera;
    if (camera.lens == Lens{}) {
        return nullptr;
    }
    return {{"fx", truth.focal},         {"fy", truth.focal},    {"cx", 0.5 * camera.width},
            {"cy", 0.5 * camera.height}, {"k1", camera.lens.k1}, {"k2", camera.lens.k2},
            {"p1", camera.lens.p1},      {"p2", camera.lens.p2}, {"k3", camera.lens.k3}};
}

Json framesOf(const Truth& truth)
{
    const auto sides = sidesOf(truth);
    const auto count = static_cast<std::ptrdiff_t>(landmarkCount(truth));
    const auto list = [count](const SideMarks& marks) {
        Json points = Json::array();
        std::transform(marks.begin(), marks.begin() + count, std::back_inserter(points), pixel);
        return points;
    };
    Json frames = Json::array();
    for (std::size_t i = 0; i < truth.frames.size(); ++i) {
        const auto& frame = truth.frames[i];
        frames.push_back({{"time_s", rounded(frame.seconds, 1e9)},
                          {"stamp", truth.times[i].stamp},
                          {sides.firstName, list(sides.leftFirst ? frame.left : frame.right)},
                          {sides.secondName, list(sides.leftFirst ? frame.right : frame.left)}});
    }
    return frames;
}

Json contactsOf(const Truth& truth)
{
    Json contacts = Json::array();
    for (const auto& it : truth.contacts) {
        contacts.push_back({{"foot", nameOf(it.foot)},
                            {"contact_s", it.contact},
                            {"toe_off_s", it.toeOff},
                            {"first_frame_on", it.firstOn},
                            {"first_frame_clear", it.firstClear},
                            {"rule_contact_s", it.ruleContact},
                            {"rule_toe_off_s", it.ruleToeOff}});
    }
    return contacts;
}

Json readingsOf(const Truth& truth)
{
    Json readings = Json::array();
    for (const auto& it : truth.readings) {
        readings.push_back({{"measure", it.measure},
                            {"unit", it.unit},
                            {"step", it.step ? Json(*it.step) : Json(nullptr)},
                            {"foot", it.foot ? Json(nameOf(*it.foot)) : Json("both")},
                            {"instant", it.instant},
                            {"time_s", it.time},
                            {"value", it.value},
                            {"rule_time_s", it.ruleTime},
                            {"rule_value", it.ruleValue}});
    }
    return readings;
}

Json recipeOf(const ClipRecipe& recipe)
{
    const auto& [runner, camera, picture, video] = recipe;
    return {{"seed", runner.seed},
            {"step_rate", runner.stepRate},
            {"landing", nameOf(runner.landing)},
            {"fatigue", runner.fatigue},
            {"variability", runner.variability},
            {"planar", runner.planar},
            {"overground", runner.overground},
            {"camera_distance_cm", camera.distance},
            {"lens_height_cm", camera.lensHeight},
            {"noise", picture.noise},
            {"exposure_s", picture.exposure},
            {"lighting_change", picture.lightingChange},
            {"handrail", picture.handrail},
            {"loose_cloth_cm", picture.looseCloth},
            {"variable_rate", video.variableRate},
            {"capture_rate_tag", video.captureRateTag},
            {"kilobits", video.kilobits ? Json(*video.kilobits) : Json(nullptr)}};
}

Json videoOf(const Truth& truth)
{
    const auto& video = truth.recipe.video;
    const double container = video.containerRate.value_or(video.captureRate);
    return {{"width", truth.recipe.camera.width},
            {"height", truth.recipe.camera.height},
            {"frames", truth.frames.size()},
            {"codec", nameOf(video.codec)},
            {"container_rate", container},
            {"capture_rate", video.captureRate},
            {"slow_motion", video.captureRate / container}};
}

Json runnerOf(const Truth& truth)
{
    const auto& runner = truth.recipe.runner;
    const Body body(runner.stature);
    Json it{{"stature_cm", runner.stature}, {"leg_length_cm", truth.legLengthCm},
            {"thigh_cm", body.thigh},       {"shank_cm", body.shank},
            {"trunk_cm", body.trunk},       {"upper_arm_cm", body.upperArm},
            {"forearm_cm", body.forearm},   {"shoe_cm", body.shoe},
            {"speed_mps", runner.speed}};
    if (!isRear(truth)) {
        it["near_side"] = truth.recipe.camera.view == View::LeftSide ? "left" : "right";
    }
    return it;
}
} // namespace

Outcome<void> writeTruth(const Truth& truth, const std::filesystem::path& file)
{
    Json landmarks = Json::array();
    for (std::size_t i = 0; i < landmarkCount(truth); ++i) {
        landmarks.push_back(landmarkNames[i]);
    }
    const Json scene{{"view", nameOf(truth.recipe.camera.view)},
                     {"scale_bottom", pixel(truth.scaleBottom)},
                     {"scale_top", pixel(truth.scaleTop)},
                     {"scale_length_cm", truth.scaleLengthCm},
                     {"ground_y_px", truth.groundY},
                     {"px_per_cm", truth.pixelsPerCm},
                     {"focal_px", truth.focal},
                     {"roll_deg", truth.recipe.camera.roll},
                     {"lens", lensOf(truth)}};
    const Json document{{"schema", "latemile-clip-truth/1"},
                        {"clip", file.stem().stem().string()},
                        {"recipe", recipeOf(truth.recipe)},
                        {"video", videoOf(truth)},
                        {"runner", runnerOf(truth)},
                        {"scene", scene},
                        {"landmarks", landmarks},
                        {"contacts", contactsOf(truth)},
                        {"readings", readingsOf(truth)},
                        {"frames", framesOf(truth)}};
    return writeText(file, document.dump() + "\n");
}

namespace {
std::set<std::size_t> instantFrames(const Truth& truth)
{
    std::set<std::size_t> frames;
    for (const auto& it : truth.contacts) {
        frames.insert({it.firstOn - 1, it.firstOn, it.firstClear - 1, it.firstClear});
        const double middle = 0.5 * (it.ruleContact + it.ruleToeOff);
        std::size_t nearest = it.firstOn;
        for (std::size_t i = it.firstOn; i < it.firstClear; ++i) {
            const bool nearer = std::abs(truth.times[i].seconds - middle) <
                                std::abs(truth.times[nearest].seconds - middle);
            nearest = nearer ? i : nearest;
        }
        frames.insert(nearest);
    }
    return frames;
}
} // namespace

Outcome<void> writeMarks(const Truth& truth, const std::filesystem::path& file, MarkFrames which)
{
    const auto sides = sidesOf(truth);
    const auto chosen = instantFrames(truth);
    std::string text = "frame,time_s,side,landmark,x_px,y_px,origin,se_px\n";
    for (std::size_t i = 0; i < truth.frames.size(); ++i) {
        if (which == MarkFrames::Instants && !chosen.contains(i)) {
            continue;
        }
        const auto& frame = truth.frames[i];
        for (const bool first : {true, false}) {
            const auto& marks = first == sides.leftFirst ? frame.left : frame.right;
            for (std::size_t k = 0; k < landmarkCount(truth); ++k) {
                text += std::to_string(i) + "," + decimalText(frame.seconds, 6) + "," +
                        (first ? sides.firstName : sides.secondName) + "," +
                        std::string(landmarkNames[k]) + "," + decimalText(marks[k].u, 3) + "," +
                        decimalText(marks[k].v, 3) + ",placed,\n";
            }
        }
    }
    return writeText(file, text);
}

Outcome<void> writeContacts(const Truth& truth, const std::filesystem::path& file)
{
    std::string text = "foot,contact_s,toe_off_s,origin,se_s\n";
    for (const auto& it : truth.contacts) {
        text += nameOf(it.foot) + "," + decimalText(it.ruleContact, 9) + "," +
                decimalText(it.ruleToeOff, 9) + ",placed,\n";
    }
    return writeText(file, text);
}

Outcome<void> writeScene(const Truth& truth, const std::filesystem::path& file)
{
    const auto& [runner, camera, picture, video] = truth.recipe;
    const bool slow = video.containerRate && *video.containerRate != video.captureRate;
    const Json scene{
        {"view", nameOf(camera.view)},
        {"travel", camera.view == View::LeftSide ? "left" : "right"},
        {"scale",
         {{"a", pixel(truth.scaleBottom)},
          {"b", pixel(truth.scaleTop)},
          {"length_cm", truth.scaleLengthCm}}},
        {"plumb", {{"top", pixel(truth.scaleTop)}, {"bottom", pixel(truth.scaleBottom)}}},
        {"ground", {{"y_px", rounded(truth.groundY, 1e4)}}},
        {"capture_fps", slow ? Json(video.captureRate) : Json(nullptr)},
        {"belt_speed_mps", runner.overground ? Json(nullptr) : Json(runner.speed)},
        {"lens", lensOf(truth)},
        {"plane", nullptr}};
    return writeText(file, scene.dump(1) + "\n");
}

Outcome<void> writeBeside(const Truth& truth, const std::filesystem::path& clip, MarkFrames frames)
{
    const auto beside = [&clip](const char* ending) {
        auto file = clip;
        return file.replace_extension(ending);
    };
    RETURN_IF_ERROR(writeTruth(truth, beside(".truth.json")));
    RETURN_IF_ERROR(writeMarks(truth, beside(".MARKS.csv"), frames));
    RETURN_IF_ERROR(writeContacts(truth, beside(".CONTACTS.csv")));
    return writeScene(truth, beside(".SCENE.json"));
}

} // namespace latemile::maker
