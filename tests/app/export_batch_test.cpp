// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/marked_clip_files.hpp"
#include "tests/app/program.hpp"
#include "tests/catch.hpp"

#include <cmath>

using namespace latemile::tests;
using nlohmann::json;

namespace {

namespace fs = std::filesystem;

std::string answer(const std::vector<std::string>& words)
{
    const auto ran = batch(words);
    CAPTURE(words, ran.err);
    REQUIRE(ran.exit == 0);
    return ran.out;
}

} // namespace

TEST_CASE("what export writes gives the same readings again", "[batch][exchange]")
{
    const MarkedClipFiles files;
    const auto into = files.folder / "out";
    const auto said = json::parse(
        answer({"export", files.clip, "--marks", files.marks, "--contacts", files.contacts,
                "--scene", files.scene, "--into", into.string(), "--json"}));
    CHECK(said["files"].size() == 9);
    CHECK(said["left_out"].empty());
    for (const auto& name : said["files"]) {
        CHECK(fs::file_size(into / name.get<std::string>()) > 0);
    }
    const auto stem = fs::path(files.clip).stem().string();
    const auto file = [&](const char* ending) { return (into / (stem + ending)).string(); };
    const auto first = answer(files.measureArguments());
    for (const char* marks : {"-marks.csv", "-keypoints.json"}) {
        CHECK(answer({"measure", files.clip, "--marks", file(marks), "--contacts",
                      file("-contacts.csv"), "--scene", file("-scene.json"), "--athlete",
                      files.athlete}) == first);
    }
}

TEST_CASE("a session's clip is exported by its condition", "[batch][exchange]")
{
    const MarkedClipFiles files;
    const auto session = files.sessionFolder();
    const auto into = (files.folder / "out").string();
    (void)answer({"export", session, "--condition", "fatigued", "--into", into});
    CHECK(fs::exists(fs::path(into) / "fatigued-points.c3d"));
    const auto ran = batch({"export", session, "--condition", "other", "--into", into});
    CHECK(ran.exit == 1);
    CHECK(ran.err.find("has no other clip") != std::string::npos);
}

TEST_CASE("another decoder plays a film of a session's steps", "[batch][film][outside]")
{
    // Outside: the ffprobe program.
    const MarkedClipFiles files;
    const auto session = files.sessionFolder();
    const auto film = (files.folder / "film.mp4").string();
    const auto track = (files.folder / "film.vtt").string();
    const auto said = json::parse(
        answer({"film", session, "--out", film, "--steps", "1", "--contacts", track, "--json"}));
    const auto probed = run("ffprobe", {"-v", "error", "-count_frames", "-show_entries",
                                        "stream=width,height,nb_read_frames", "-of", "json", film});
    REQUIRE(probed.exit == 0);
    const auto stream = json::parse(probed.out)["streams"][0];
    CHECK(stream["nb_read_frames"] == std::to_string(said["pictures"].get<int>()));
    CHECK(stream["width"] == 1440); // side by side
    const auto read = run("ffprobe", {"-v", "error", "-show_entries",
                                      "packet=pts_time,duration_time", "-of", "json", track});
    REQUIRE(read.exit == 0);
    CHECK_FALSE(json::parse(read.out)["packets"].empty());
}

TEST_CASE("a record goes from one library to another by the program", "[batch][hand_over]")
{
    const MarkedClipFiles files;
    const auto athlete = fs::path(files.sessionFolder()).parent_path();
    const auto zip = (files.folder / "record.zip").string();
    const auto library = files.folder / "elsewhere";
    (void)answer({"hand-over", athlete.string(), "--out", zip});
    const auto said = json::parse(answer({"take-in", zip, library.string(), "--json"}));
    const fs::path back = said["file"].get<std::string>();
    CHECK(bytesOf(back / "athlete.json") == bytesOf(athlete / "athlete.json"));
    const auto again = batch({"take-in", zip, library.string()});
    CHECK(again.exit == 1);
    CHECK(again.err.find("already") != std::string::npos);
}
