// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/scene/camera_moved.hpp"

#include "core/clip/clip_reader.hpp"
#include "sample_clips/maker/render_clip.hpp"
#include "tests/catch.hpp"
#include "tests/project_folders.hpp"
#include "tests/scratch_folder.hpp"

#include <opencv2/imgproc.hpp>

#include <cmath>
#include <cstring>

using namespace latemile;
using Stands = CameraVerdict::Stands;

namespace {

const std::filesystem::path visits = tests::sourceFolder() / "sample_clips" / "ilse-varga";

StillBackground backgroundOf(const std::filesystem::path& file)
{
    auto background = readStillBackground(file);
    REQUIRE(background);
    return std::move(*background);
}

Picture pictureOf(const cv::Mat& colours)
{
    const auto bytes = static_cast<std::size_t>(colours.rows * colours.cols) * 4;
    const std::shared_ptr<std::uint8_t> pixels(new std::uint8_t[bytes],
                                               [](const std::uint8_t* p) { delete[] p; });
    std::memcpy(pixels.get(), colours.data, bytes);
    return {colours.cols, colours.rows, static_cast<std::size_t>(colours.cols) * 4, pixels};
}

/// A frame of the sample, and the same frame turned about the middle, enlarged and shifted by
/// OpenCV's warpAffine, which knows nothing of ours.
struct Warped {
    StillBackground before;
    StillBackground after;
};

Warped warped(double zoom, double clockwise, double du, double dv)
{
    auto reader = ClipReader::open(visits / "2026-08-29/clips/fresh.mp4").value();
    const Picture picture = reader.frame({10}).value().picture;
    const cv::Mat from(picture.height(), picture.width(), CV_8UC4,
                       const_cast<std::uint8_t*>(picture.row(0)), picture.bytesPerRow());
    // OpenCV turns anticlockwise and counts the first pixel's centre as 0.
    cv::Mat how = cv::getRotationMatrix2D({static_cast<float>(picture.width() / 2.0 - 0.5),
                                           static_cast<float>(picture.height() / 2.0 - 0.5)},
                                          -clockwise, zoom);
    how.at<double>(0, 2) += du;
    how.at<double>(1, 2) += dv;
    cv::Mat to;
    cv::warpAffine(from, to, how, from.size(), cv::INTER_CUBIC, cv::BORDER_REPLICATE);
    const std::array first{picture};
    const std::array second{pictureOf(to)};
    return {stillBackgroundOf(first), stillBackgroundOf(second)};
}

maker::ClipRecipe recipe()
{
    maker::ClipRecipe recipe;
    recipe.video.duration = 0.6;
    recipe.video.captureRate = 60;
    return recipe;
}

StillBackground made(const maker::ClipRecipe& recipe, const char* name)
{
    const tests::ScratchFolder folder;
    const auto file = folder.path() / name;
    REQUIRE(maker::renderClip(recipe, file));
    return backgroundOf(file);
}

} // namespace

TEST_CASE("two clips of one untouched tripod agree to a tenth of a pixel", "[scene][outside]")
{
    // The truth files beside the clips give one camera for both: position, tilt and pole.
    for (const char* day : {"2026-08-29", "2026-09-26", "2026-10-24"}) {
        INFO(day);
        const auto move = cameraMoveBetween(backgroundOf(visits / day / "clips/fresh.mp4"),
                                            backgroundOf(visits / day / "clips/late.mp4"));
        REQUIRE(move);
        CAPTURE(move->shift.u, move->shift.v, move->zoom, move->rollDegrees, move->residualPx,
                move->agreeing, move->matched);
        CHECK(move->shiftPx() < 0.1);
        CHECK(std::abs(move->zoom - 1.0) < 0.0005);
        CHECK(std::abs(move->rollDegrees) < 0.02);
        CHECK(judgeCamera(move, 1280, 0.333).stands == Stands::Same);
    }
}

TEST_CASE("a tripod set up anew a month later is told from one left standing", "[scene][outside]")
{
    // Truth files: image_tilt_deg -0.609 on 2026-08-29, 0.411 on 2026-09-26, -0.3 on 2026-10-24;
    // the pole's ends are 601.63, 582.75 and 609.60 px apart. The camera stands 3.62, 3.75 and 3.58
    // m away and a few centimetres aside, so that floor and wall move differently from the pole.
    const auto first = backgroundOf(visits / "2026-08-29/clips/fresh.mp4");
    const auto second =
        cameraMoveBetween(first, backgroundOf(visits / "2026-09-26/clips/fresh.mp4"));
    const auto third =
        cameraMoveBetween(first, backgroundOf(visits / "2026-10-24/clips/fresh.mp4"));
    REQUIRE(second);
    REQUIRE(third);
    CAPTURE(second->shift.u, second->shift.v, second->zoom, second->rollDegrees);
    CAPTURE(third->shift.u, third->shift.v, third->zoom, third->rollDegrees);
    CHECK(second->rollDegrees == Approx(0.411 + 0.609).margin(0.2));
    CHECK(third->rollDegrees == Approx(0.609 - 0.3).margin(0.1));
    CHECK(second->zoom == Approx(582.75 / 601.63).margin(0.01));
    CHECK(third->zoom == Approx(609.60 / 601.63).margin(0.005));
    CHECK(judgeCamera(second, 1280, 0.333).stands == Stands::Moved);
    const auto verdict = judgeCamera(third, 1280, 0.333);
    CHECK(verdict.stands == Stands::Doubtful);
    CHECK(verdict.sentence.find(" px (") != std::string::npos);
    CHECK(verdict.sentence.find(" cm at the runner)") != std::string::npos);
}

TEST_CASE("a picture shifted, turned and enlarged by OpenCV is found to be so", "[scene][outside]")
{
    const auto [zoom, roll, du, dv, stands] = GENERATE(
        table<double, double, double, double, Stands>({{1.0, 0.0, 1.3, -0.8, Stands::Same},
                                                       {1.0, 0.0, 6.3, -3.8, Stands::Doubtful},
                                                       {1.0, 0.4, 0.0, 0.0, Stands::Doubtful},
                                                       {1.012, 0.0, 0.0, 0.0, Stands::Doubtful},
                                                       {0.97, 0.0, 0.0, 0.0, Stands::Moved},
                                                       {1.005, -1.5, 12.0, 5.0, Stands::Moved},
                                                       {1.0, 0.0, 80.0, 0.0, Stands::Moved}}));
    const auto pictures = warped(zoom, roll, du, dv);
    const auto move = cameraMoveBetween(pictures.before, pictures.after);
    REQUIRE(move);
    CAPTURE(move->zoom, move->rollDegrees, move->shift.u, move->shift.v);
    CHECK(move->zoom == Approx(zoom).margin(0.0005));
    CHECK(move->rollDegrees == Approx(roll).margin(0.02));
    CHECK(move->shift.u == Approx(du).margin(0.15));
    CHECK(move->shift.v == Approx(dv).margin(0.15));
    CHECK(judgeCamera(move, 1280, std::nullopt).stands == stands);
}

TEST_CASE("a camera turned about its axis and zoomed is found in made clips", "[scene][outside]")
{
    // Of a pinhole, a longer focal length enlarges and a roll turns the whole picture, whatever the
    // depth. The runners differ: another seed of steps, fresh and tired, in the same room.
    auto before = recipe();
    before.camera.focal = 1280.0;
    auto after = before;
    after.runner.fatigue = 1.0;
    SECTION("untouched")
    {
        const auto move = cameraMoveBetween(made(before, "a.mp4"), made(after, "b.mp4"));
        REQUIRE(move);
        CAPTURE(move->shiftPx(), move->zoom, move->rollDegrees);
        CHECK(judgeCamera(move, 1280, 0.3125).stands == Stands::Same);
        CHECK(move->shiftPx() < 0.2);
    }
    SECTION("zoomed by 1 % and rolled by 0.4 degrees")
    {
        after.camera.focal = 1292.8;
        after.camera.roll = 0.4;
        const auto move = cameraMoveBetween(made(before, "a.mp4"), made(after, "b.mp4"));
        REQUIRE(move);
        CAPTURE(move->shiftPx(), move->zoom, move->rollDegrees);
        CHECK(move->zoom == Approx(1.01).margin(0.001));
        CHECK(move->rollDegrees == Approx(0.4).margin(0.03));
        CHECK(move->shiftPx() < 0.3);
        CHECK(judgeCamera(move, 1280, 0.3125).stands == Stands::Doubtful);
    }
}

TEST_CASE("clips without a common background are not judged", "[scene]")
{
    const auto move = cameraMoveBetween(backgroundOf(visits / "2026-10-24/clips/fresh.mp4"),
                                        backgroundOf(visits / "2026-10-24/clips/rear.mp4"));
    const auto verdict = judgeCamera(move, 1280, 0.333);
    CHECK(verdict.stands == Stands::CannotTell);
    CHECK(verdict.sentence.find("no common background") != std::string::npos);
}

TEST_CASE("lines carried along stand where the same points now are", "[scene]")
{
    // By hand: enlarged twice about the middle (100, 100), turned a quarter clockwise, shifted by
    // (5, 0): a point 10 to the right of the middle comes to lie 20 below it.
    const CameraMove move{.zoom = 2.0,
                          .rollDegrees = 90.0,
                          .shift = {5, 0},
                          .middle = {100, 100},
                          .residualPx = 0,
                          .agreeing = 30,
                          .matched = 40};
    const auto at = move.carried({110, 100});
    CHECK(at.u == Approx(105));
    CHECK(at.v == Approx(120));
    Scene scene;
    scene.scale = ScaleLine{{100, 100}, {110, 100}, 50};
    const auto carried = carriedBy(scene, move);
    CHECK(carried.scale->a.u == Approx(105));
    CHECK(carried.scale->b.v == Approx(120));
    CHECK(carried.scale->lengthCm == 50);
}

TEST_CASE("looking at a background can be stopped", "[scene]")
{
    const auto stopped =
        readStillBackground(visits / "2026-08-29/clips/fresh.mp4", [](double) { return false; });
    REQUIRE_FALSE(stopped);
    CHECK(stopped.error().kind == Error::Kind::Cancelled);
}
