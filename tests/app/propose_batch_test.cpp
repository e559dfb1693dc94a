// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/clip_reader.hpp"
#include "core/document_schema.hpp"
#include "core/marks/marks_file.hpp"
#include "core/propose/looks_file.hpp"
#include "tests/app/program.hpp"
#include "tests/catch.hpp"
#include "tests/core/propose/modelled_bodies.hpp"
#include "tests/project_folders.hpp"
#include "tests/scratch_folder.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <cmath>

using latemile::faultBySchema;
using namespace latemile::tests;
using nlohmann::json;

namespace {

const std::string clip =
    (sourceFolder() / "sample_clips/ilse-varga/2026-08-29/clips/late.mp4").string();
const std::string box = "500,120,260,530";

using Words = std::vector<std::string>;

Ran propose(const ScratchFolder& folder, const Words& more)
{
    Words words{"propose", clip, "--out", (folder / "MARKS.csv").string()};
    words.insert(words.end(), more.begin(), more.end());
    return batch(words);
}

void checkRefused(const Words& more, const std::string& part, int exit = 1)
{
    const ScratchFolder folder;
    const auto ran = propose(folder, more);
    CAPTURE(ran.out, ran.err);
    CHECK(ran.exit == exit);
    CHECK(ran.out.empty());
    CHECK(std::count(ran.err.begin(), ran.err.end(), '\n') == 1);
    CHECK_THAT(ran.err, containing(part));
    CHECK(folder.entries() == 0);
}

} // namespace

TEST_CASE("propose writes marks of origin proposed with their errors and tells of doubts",
          "[batch][propose]")
{
    const ScratchFolder folder;
    const auto ran = propose(folder, {"--box", box, "--frames", "140-156 every 4", "--json"});
    CAPTURE(ran.err);
    REQUIRE(ran.exit == 0);
    CHECK(ran.err.empty());
    const auto answer = json::parse(ran.out);
    CHECK(faultBySchema("proposals", answer) == "");
    CHECK(answer.at("frames") == 5);
    CHECK(answer.at("proposals") == 5 * 2 * 9);
    CHECK(answer.at("view") == "left-side");

    const auto csv = bytesOf(folder / "MARKS.csv");
    CHECK(csv.starts_with("frame,time_s,side,landmark,x_px,y_px,origin,se_px\n140,"));
    CHECK(std::count(csv.begin(), csv.end(), '\n') == 1 + 5 * 2 * 9);
    CHECK(csv.find(",proposed,\n") == std::string::npos); // never without an error
    CHECK(csv.find("\n156,") != std::string::npos);
    CHECK(csv.find("\n150,") == std::string::npos);
}

TEST_CASE(
    "what the window kept of a clip is not looked at again, unless a box or frames ask for it",
    "[batch][propose]")
{
    const ScratchFolder folder;
    const auto copy = folder / "late.mp4";
    std::filesystem::copy_file(clip, copy);
    auto reader = latemile::ClipReader::open(copy);
    REQUIRE(reader);
    const ModelledRunner runner; // 40 frames; not the one in the picture
    REQUIRE(latemile::keepLooks({runner.bodies(), {}, {}, {}}, reader->index(), copy));
    const auto hipAt = [&](const Words& more) {
        Words words{"propose", copy.string(), "--out", (folder / "M.csv").string()};
        words.insert(words.end(), more.begin(), more.end());
        const auto ran = batch(words);
        CAPTURE(ran.err);
        REQUIRE(ran.exit == 0);
        const auto marks = latemile::readMarks(folder / "M.csv", reader->index(),
                                               reader->facts().width, reader->facts().height);
        REQUIRE(marks);
        return marks->at({{38}, latemile::BodySide::Near, latemile::Landmark::Hip}).at;
    };
    const auto modelled = placeOf(runner, 38, latemile::BodySide::Near, latemile::Landmark::Hip);
    const auto isKept = [&](latemile::PixelPoint at) {
        return std::hypot(at.u - modelled.u, at.v - modelled.v) < 10.0; // its default offset
    };
    CHECK(isKept(hipAt({"--frames", "0-39"})));
    CHECK_FALSE(isKept(hipAt({"--frames", "38-41"}))); // 40 and 41 were not looked at
    CHECK_FALSE(isKept(hipAt({"--frames", "38,39", "--box", box})));
}

TEST_CASE("of a fast clip the frames are proposed that the window looks at", "[batch][propose]")
{
    const ScratchFolder folder;
    const auto copy = folder / "late.mp4";
    std::filesystem::copy_file(clip, copy);
    latemile::ClipOptions slowMotion;
    slowMotion.captureRate = 240.0;
    auto reader = latemile::ClipReader::open(copy, slowMotion);
    REQUIRE(reader);
    std::vector<latemile::FoundBody> everySecond;
    for (auto& body : ModelledRunner{.frames = 336}.bodies()) {
        body.frame.value *= 2;
        everySecond.push_back(body);
    }
    REQUIRE(latemile::keepLooks({everySecond, {}, {}, {}}, reader->index(), copy));
    const auto ran = batch({"propose", copy.string(), "--capture-fps", "240", "--json", "--out",
                            (folder / "M.csv").string()});
    CAPTURE(ran.err);
    REQUIRE(ran.exit == 0);
    CHECK(json::parse(ran.out).at("frames") == 336);
}

TEST_CASE("that a clip was cut off is told with its proposals", "[batch][propose]")
{
    const ScratchFolder folder;
    const auto cut = folder / "cut.mp4";
    std::filesystem::copy_file(clip, cut);
    std::filesystem::resize_file(cut, 300000);
    const auto ran = batch({"propose", cut.string(), "--box", box, "--frames", "140-142", "--out",
                            (folder / "MARKS.csv").string()});
    CAPTURE(ran.err);
    CHECK(ran.exit == 0);
    CHECK_THAT(ran.out, containing("The clip ends after") && containing("of its 672 frames"));
}

TEST_CASE("propose refuses what it cannot do in one sentence and writes nothing",
          "[batch][propose]")
{
    checkRefused({"--frames", "600-900"}, "has the frames 0 to 671, not 900");
    checkRefused({"--box", "2000,0,100,100"}, "The box lies outside the picture");
    const ScratchFolder other;
    checkRefused(
        {"--scene",
         other.file("SCENE.json", R"({"version":1,"view":"rear","travel":"left"})").string(),
         "--box", box, "--frames", "140,142"},
        "filmed from the side");
    checkRefused({"--marks", (other / "NONE.csv").string()}, "There is no file");
}

TEST_CASE("propose says of which clip nothing can be proposed, and why", "[batch][propose]")
{
    struct Bad {
        const char* filter;
        const char* told;
    };
    // Two people: the runner's part of the picture once more beside herself.
    constexpr std::array bads{
        Bad{"drawbox=color=gray:t=fill", "No runner was found in the picture"},
        Bad{"vflip,hflip", "upside down"}, Bad{"transpose=1", "lies on her side"},
        Bad{"split[a][b];[b]crop=340:720:480:0[c];[a][c]overlay=60:0", "More than one person"}};
    for (const auto& [filter, told] : bads) {
        CAPTURE(filter);
        const ScratchFolder folder;
        const auto bad = (folder / "bad.mp4").string();
        const auto made = run("ffmpeg", {"-loglevel", "error", "-ss", "1.0", "-i", clip, "-vf",
                                         filter, "-frames:v", "40", "-crf", "18", bad});
        INFO(made.err);
        REQUIRE(made.exit == 0);
        const auto ran = batch({"propose", bad, "--out", (folder / "MARKS.csv").string()});
        CHECK(ran.exit == 1);
        CHECK(ran.out.empty());
        CHECK(std::count(ran.err.begin(), ran.err.end(), '\n') == 1);
        CHECK_THAT(ran.err, containing(told) && containing("bad.mp4"));
        CHECK(folder.entries() == 1);
    }
}

TEST_CASE("propose tells of a runner cut off at the edge, and of a clip of less than a step",
          "[batch][propose]")
{
    const ScratchFolder folder;
    const auto made = [&](const std::string& name, const char* filter, const char* frames) {
        const auto file = (folder / name).string();
        const auto ran = run("ffmpeg", {"-loglevel", "error", "-ss", "1.0", "-i", clip, "-vf",
                                        filter, "-frames:v", frames, "-crf", "18", file});
        INFO(ran.err);
        REQUIRE(ran.exit == 0);
        return file;
    };
    const auto out = (folder / "MARKS.csv").string();
    const auto feetless = batch({"propose", made("feetless.mp4", "crop=1280:580:0:0", "40"),
                                 "--frames", "0-39 every 4", "--out", out});
    CAPTURE(feetless.out, feetless.err);
    CHECK(feetless.exit == 0);
    CHECK_THAT(feetless.out, containing("the runner reaches the edge of the picture"));
    std::filesystem::remove(out);
    const auto shortClip =
        batch({"propose", made("short.mp4", "null", "20"), "--out", out}); // 0.16 s
    CHECK(shortClip.exit == 1);
    CHECK_THAT(shortClip.err, containing("shorter than one step") && containing("short.mp4"));
    CHECK_FALSE(std::filesystem::exists(out));
}

TEST_CASE("propose tells wrong use from what could not be done", "[batch][propose]")
{
    checkRefused({"--frames", "12-3"}, "'12-3' is neither frames", 2);
    checkRefused({"--frames", "every 0"}, "neither frames", 2);
    checkRefused({"--frames", "1,x"}, "neither frames", 2);
    checkRefused({"--box", "1,2,3"}, "is no box", 2);
    checkRefused({"--box", "1,2,0,4"}, "is no box", 2);
}

TEST_CASE("installed without its network, or with another, propose says so and writes nothing",
          "[batch][propose]")
{
    const ScratchFolder installed;
    const auto program = installedWithoutNetwork(installed);
    std::string part = "is missing";
    SECTION("missing") {}
    SECTION("another")
    {
        (void)installed.file("share/latemile/pose/pose_landmark_heavy.tflite", "TFL3 of old");
        part = "is damaged or of another version";
    }
    const ScratchFolder folder;
    const auto ran = run(program, {"propose", clip, "--frames", "140-150", "--out",
                                   (folder / "MARKS.csv").string()});
    CAPTURE(ran.err);
    CHECK(ran.exit == 1);
    CHECK(ran.out.empty());
    CHECK_THAT(ran.err, containing(part));
    CHECK_THAT(ran.err, containing("placed by hand"));
    CHECK(folder.entries() == 0);
}
