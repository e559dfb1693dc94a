// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/render_clip.hpp"
#include "sample_clips/maker/truth_files.hpp"
#include "tests/catch.hpp"
#include "tests/project_folders.hpp"

#include <nlohmann/json.hpp>
#include <opencv2/calib3d.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

using namespace latemile::maker;

namespace {
Truth truthFor(const ClipRecipe& recipe)
{
    auto truth = truthWithoutClip(recipe);
    REQUIRE(truth);
    return *std::move(truth);
}

std::string textOf(const std::filesystem::path& file)
{
    std::ifstream in(file);
    std::stringstream text;
    text << in.rdbuf();
    return text.str();
}

/// A point of a planar clip's picture in cm, by the pole alone: what a coach's scale line gives.
struct FlatScale {
    const Truth& truth;
    [[nodiscard]] Vec2 operator()(latemile::PixelPoint p) const
    {
        const Vec2 bottom{truth.scaleBottom.u, truth.scaleBottom.v};
        const Vec2 top{truth.scaleTop.u, truth.scaleTop.v};
        const double cmPerPixel = truth.scaleLengthCm / length(top - bottom);
        const Vec2 up = (top - bottom) * (1.0 / length(top - bottom));
        const double facing = truth.recipe.camera.view == View::LeftSide ? -1.0 : 1.0;
        const Vec2 forward{-up.y * facing, up.x * facing};
        const Vec2 from = Vec2{p.u, p.v} - bottom;
        return {cmPerPixel * (from.x * forward.x + from.y * forward.y),
                cmPerPixel * (from.x * up.x + from.y * up.y)};
    }
};
} // namespace

TEST_CASE("the same seed gives the same truth and another seed another", "[maker]")
{
    const ClipRecipe recipe{.runner = {.seed = 21}};
    const auto once = truthFor(recipe);
    const auto again = truthFor(recipe);
    auto changed = recipe;
    changed.runner.seed = 22;
    const auto other = truthFor(changed);
    REQUIRE(once.frames.size() == again.frames.size());
    for (std::size_t i = 0; i < once.frames.size(); ++i) {
        CHECK(once.frames[i].left == again.frames[i].left);
        CHECK(once.frames[i].right == again.frames[i].right);
    }
    CHECK_FALSE(once.frames[5].left == other.frames[5].left);
}

TEST_CASE("readings of a planar runner follow from the marks and the pole alone", "[maker]")
{
    const auto view = GENERATE(View::LeftSide, View::RightSide);
    const double roll = GENERATE(0.0, 3.0);
    const auto truth = truthFor({.runner = {.seed = 13, .planar = true},
                                 .camera = {.view = view, .roll = roll},
                                 .video = {.captureRate = 1000.0, .duration = 1.5}});
    const FlatScale plane{truth};
    int compared = 0;
    for (const auto& reading : truth.readings) {
        if (reading.measure != "foot_ahead" && reading.measure != "trunk_lean") {
            continue;
        }
        // One frame a millisecond: the marks are taken between the two frames around the time.
        const auto after = static_cast<std::size_t>(std::ceil(reading.time * 1000.0));
        const double share = reading.time * 1000.0 - static_cast<double>(after) + 1.0;
        const auto mark = [&](std::size_t landmark) {
            const auto side = [&](std::size_t i) {
                const auto& frame = truth.frames[i];
                return plane((view == View::LeftSide ? frame.left : frame.right)[landmark]);
            };
            return side(after - 1) * (1.0 - share) + side(after) * share;
        };
        const Vec2 hip = mark(4);
        if (reading.measure == "foot_ahead") {
            CHECK(reading.value == Approx(mark(6).x - hip.x).margin(0.02));
            ++compared;
        } else {
            const Vec2 shoulder = mark(1);
            const double lean = degrees(std::atan2(shoulder.x - hip.x, shoulder.y - hip.y));
            CHECK(reading.value == Approx(lean).margin(0.02));
            ++compared;
        }
    }
    CHECK(compared >= 4);
}

TEST_CASE("timings at the rule's times are within a frame of the exact ones", "[maker]")
{
    const auto truth =
        truthFor({.runner = {.seed = 4}, .video = {.captureRate = 60.0, .duration = 4.0}});
    for (const auto& it : truth.contacts) {
        CHECK(std::abs(it.ruleContact - it.contact) <= 0.5 / 60.0 + 1e-9);
        CHECK(std::abs(it.ruleToeOff - it.toeOff) <= 0.5 / 60.0 + 1e-9);
        CHECK(truth.times[it.firstOn].seconds >= it.contact);
        CHECK(truth.times[it.firstOn - 1].seconds < it.contact);
    }
    // 168 steps a minute for 4 s are 11.2; at most one is cut at each end.
    CHECK(truth.contacts.size() >= 9);
    CHECK(truth.contacts.size() <= 12);
}

TEST_CASE("feet alternate and the step length is the belt's way in a step", "[maker]")
{
    const auto truth = truthFor({.runner = {.seed = 17, .variability = 0.0}});
    for (std::size_t i = 1; i < truth.contacts.size(); ++i) {
        CHECK(truth.contacts[i].foot != truth.contacts[i - 1].foot);
    }
    for (const auto& reading : truth.readings) {
        if (reading.measure == "step_length") {
            // By hand: 2.7 m/s for 60/168 s, when every step is like the other.
            CHECK(reading.value == Approx(2.7 * 60.0 / 168.0).margin(0.002));
        }
        if (reading.measure == "step_rate") {
            CHECK(reading.value == Approx(168.0).margin(1e-6));
        }
    }
}

TEST_CASE("the camera's lens is the one OpenCV documents", "[maker][outside]")
{
    // OpenCV's own projectPoints, calib3d, as the general reference.
    const CameraRecipe recipe{
        .view = View::RightSide, .roll = 0.0, .lens = {-0.22, 0.06, 0.0012, -0.0009, -0.004}};
    const Camera camera(recipe);
    const std::vector<Vec3> places{{30, 120, 5}, {-150, 10, -40}, {170, 180, 60}, {0, 95, 0}};
    std::vector<cv::Point3d> seen; // x right, y down, z away from the camera
    for (const auto& p : places) {
        seen.emplace_back(p.x, recipe.lensHeight - p.y, recipe.distance - p.z);
    }
    const cv::Matx33d inner(camera.focal(), 0, 640, 0, camera.focal(), 360, 0, 0, 1);
    std::vector<cv::Point2d> expected;
    cv::projectPoints(seen, cv::Vec3d(0, 0, 0), cv::Vec3d(0, 0, 0), inner,
                      std::vector<double>{-0.22, 0.06, 0.0012, -0.0009, -0.004}, expected);
    for (std::size_t i = 0; i < places.size(); ++i) {
        const auto p = camera.project(places[i]);
        CHECK(p.u == Approx(expected[i].x).margin(1e-6));
        CHECK(p.v == Approx(expected[i].y).margin(1e-6));
    }
}

TEST_CASE("a pixel's ray leads back to the place it came from", "[maker]")
{
    const auto view = GENERATE(View::LeftSide, View::RightSide, View::Rear);
    const Camera camera({.view = view, .roll = -4.0, .lens = {-0.18, 0.03, 0.001, 0.0, 0.0}});
    const Vec3 place{20.0, 70.0, -15.0};
    const Vec3 ray = camera.ray(camera.project(place));
    const Vec3 there = camera.position() + ray * camera.depth(place);
    CHECK(length(there - place) < 1e-4);
}

TEST_CASE("a left-side runner faces left and a positive roll turns the picture clockwise",
          "[maker]")
{
    const auto truth = truthFor({.camera = {.view = View::LeftSide, .roll = 2.0}});
    for (const auto& frame : truth.frames) {
        if (frame.seconds > 0.1) {
            break;
        }
        CHECK(frame.left[8].u - frame.left[7].u < 60.0); // toe and heel
    }
    // Clockwise: the pole's top moves to the right of its bottom.
    CHECK(truth.scaleTop.u > truth.scaleBottom.u + 10.0);
}

TEST_CASE("an overground runner moves at the stated speed", "[maker]")
{
    const auto truth = truthFor({.runner = {.seed = 3, .speed = 3.0, .overground = true},
                                 .camera = {.view = View::RightSide, .distance = 700.0},
                                 .video = {.duration = 1.5}});
    const auto& first = truth.frames.front();
    const auto& last = truth.frames.back();
    const double pixels = last.right[4].u - first.right[4].u;
    const double seconds = last.seconds - first.seconds;
    CHECK(pixels / truth.pixelsPerCm / seconds == Approx(300.0).epsilon(0.03));
}

TEST_CASE("exchange files hold what the truth holds", "[maker]")
{
    const auto folder = latemile::tests::binaryFolder() / "maker_truth_test";
    std::filesystem::create_directories(folder);
    const auto truth = truthFor({.runner = {.seed = 6}, .camera = {.view = View::RightSide}});
    REQUIRE(writeBeside(truth, folder / "clip.mp4", MarkFrames::Instants));

    const auto scene = nlohmann::json::parse(textOf(folder / "clip.SCENE.json"));
    CHECK(scene.at("view") == "right-side");
    CHECK(scene.at("travel") == "right");
    CHECK(scene.at("belt_speed_mps") == 2.7);
    CHECK(scene.at("capture_fps").is_null());
    CHECK(scene.at("scale").at("length_cm") == 180.0);

    const auto document = nlohmann::json::parse(textOf(folder / "clip.truth.json"));
    CHECK(document.at("frames").size() == truth.frames.size());
    CHECK(document.at("contacts").size() == truth.contacts.size());
    const auto hip = document.at("frames").at(7).at("near").at(4);
    CHECK(hip.at(0).get<double>() == Approx(truth.frames[7].right[4].u).margin(1e-4));

    const auto marks = textOf(folder / "clip.MARKS.csv");
    CHECK(marks.starts_with("frame,time_s,side,landmark,x_px,y_px,origin,se_px\n"));
    // Nine landmarks of two sides on at least four frames a contact.
    const auto lines = std::count(marks.begin(), marks.end(), '\n');
    CHECK((lines - 1) % 18 == 0);
    CHECK(lines - 1 >= static_cast<std::ptrdiff_t>(18 * 4 * truth.contacts.size()));
    const auto contacts = textOf(folder / "clip.CONTACTS.csv");
    CHECK(std::count(contacts.begin(), contacts.end(), '\n') ==
          static_cast<std::ptrdiff_t>(truth.contacts.size()) + 1);
    std::filesystem::remove_all(folder);
}

TEST_CASE("a folder that is not there is refused with a sentence", "[maker]")
{
    const auto truth = truthFor({.video = {.duration = 0.5}});
    const auto written = writeContacts(truth, "/nowhere/at/all/CONTACTS.csv");
    REQUIRE_FALSE(written);
    CHECK(written.error().sentence.find("CONTACTS.csv") != std::string::npos);
}
