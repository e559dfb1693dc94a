// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/document_schema.hpp"
#include "tests/app/marked_clip_files.hpp"
#include "tests/app/program.hpp"
#include "tests/catch.hpp"

#include <algorithm>

using latemile::faultBySchema;
using namespace latemile::tests;
using nlohmann::json;

namespace {

/// Runs the program and gives its answer, which must be there and alone.
std::string answer(const std::vector<std::string>& words)
{
    const auto ran = batch(words);
    CAPTURE(words, ran.err);
    REQUIRE(ran.exit == 0);
    CHECK(ran.err.empty());
    return ran.out;
}

std::vector<std::string> with(std::vector<std::string> words, const std::vector<std::string>& more)
{
    words.insert(words.end(), more.begin(), more.end());
    return words;
}

/// The mean of a measure over both feet, or over the one it is had of.
double meanOf(const json& readings, const std::string& measure)
{
    for (const auto& row : readings["summary"]) {
        if (row["measure"] == measure) {
            return row["mean"];
        }
    }
    FAIL("no summary of " << measure);
    return 0;
}

/// The pixels of a picture as the ffmpeg program decodes them, 3 bytes each.
std::string rawPixels(const std::vector<std::string>& source, const ScratchFolder& folder)
{
    const auto out = (folder / "pixels.rgb").string();
    const auto ran =
        run("ffmpeg", with(with({"-v", "error", "-y"}, source),
                           {"-frames:v", "1", "-pix_fmt", "rgb24", "-f", "rawvideo", out}));
    INFO(ran.err);
    REQUIRE(ran.exit == 0);
    return bytesOf(out);
}

} // namespace

TEST_CASE("readings of a clip are those its marks were made from", "[batch][outside]")
{
    // By hand: 40 px ahead at 0.5 cm a pixel; 42 and 30 of 120 frames; 60 / 0.35; the knee's angle
    // from three points: atan2(28, 44) to the thigh, atan2(12, 40) to the shank.
    const MarkedClipFiles files;
    const auto readings = json::parse(answer(with(files.measureArguments(), {"--json"})));
    CHECK(readings["steps"].size() == 8);
    CHECK(meanOf(readings, "foot_ahead") == Approx(20.0).margin(0.01));
    CHECK(meanOf(readings, "contact_time") == Approx(250.0).margin(0.01));
    CHECK(meanOf(readings, "flight_time") == Approx(100.0).margin(0.01));
    CHECK(meanOf(readings, "step_rate") == Approx(171.4286).margin(0.001));
    CHECK(meanOf(readings, "knee_flex_contact") == Approx(32.471 - 16.699).margin(0.01));
}

TEST_CASE("what measure prints and what it writes are the same readings", "[batch]")
{
    const MarkedClipFiles files;
    const auto file = (files.folder / "readings.json").string();
    const auto said = answer(with(files.measureArguments(), {"--out", file}));
    CHECK(said.find(file) != std::string::npos);
    CHECK(json::parse(bytesOf(file)) ==
          json::parse(answer(with(files.measureArguments(), {"--json"}))));

    const auto table = answer(files.measureArguments());
    CHECK(table.find("8 steps") != std::string::npos);
    CHECK(table.find("171.4") != std::string::npos);

    const auto csv = (files.folder / "readings.csv").string();
    (void)answer(with(files.measureArguments(), {"--out", csv}));
    const auto text = bytesOf(csv);
    CHECK(text.find("measure,unit,step,foot,instant,time_s,value,se,reason,confirmed\n") == 0);
    const auto rows = json::parse(bytesOf(file))["readings"].size();
    CHECK(static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n')) == rows + 1);
}

TEST_CASE("a session's clip reads as the same clip and files do", "[batch]")
{
    const MarkedClipFiles files;
    const auto session = files.sessionFolder();
    const auto fromFiles = json::parse(answer(with(files.measureArguments(), {"--json"})));
    const auto fromSession =
        json::parse(answer({"measure", session, "--condition", "fresh", "--json"}));
    for (const auto* measure : {"foot_ahead", "contact_time", "shank_angle"}) {
        CHECK(meanOf(fromSession, measure) == Approx(meanOf(fromFiles, measure)).margin(0.01));
    }
    CHECK(fromSession["clip"]["condition"] == "fresh");
    CHECK(fromSession["clip"]["date"] == "2026-03-14");
}

TEST_CASE("two clips marked alike show no change", "[batch]")
{
    const MarkedClipFiles files;
    const auto session = files.sessionFolder();
    const auto fresh = (files.folder / "fresh.json").string();
    const auto fatigued = (files.folder / "fatigued.json").string();
    (void)answer({"measure", session, "--condition", "fresh", "--out", fresh});
    (void)answer({"measure", session, "--condition", "fatigued", "--out", fatigued});
    const auto comparison = json::parse(answer({"compare", fresh, fatigued, "--json"}));
    REQUIRE_FALSE(comparison["rows"].empty());
    for (const auto& row : comparison["rows"]) {
        CAPTURE(row.dump());
        CHECK(row["verdict"] != "clear change");
        CHECK((row["change"].is_null() || std::abs(row["change"].get<double>()) < 1e-9));
    }
    CHECK(json::parse(answer({"compare", session, "--json"})) == comparison);
    const auto csv = (files.folder / "comparison.csv").string();
    (void)answer({"compare", fresh, fatigued, "--out", csv});
    const auto text = bytesOf(csv);
    CHECK(static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n')) ==
          comparison["rows"].size() + 1);
    CHECK(answer({"compare", fresh, fatigued}).find("verdict") != std::string::npos);
}

TEST_CASE("a frame is the picture another decoder gives", "[batch][outside]")
{
    // The ffmpeg program counts frames and decodes without us; it converts colours with another
    // rounding, so that a pixel may differ by a little.
    const MarkedClipFiles files;
    const auto [at, number] = GENERATE(table<std::string, int>(
        {{"0", 0}, {"77", 77}, {"359", 359}, {"0.5s", 60}, {"1.0041s", 120}, {"1.0042s", 121}}));
    const auto picture = (files.folder / "frame.png").string();
    const auto said =
        json::parse(answer({"frame", files.clip, "--at", at, "--out", picture, "--json"}));
    CAPTURE(at, said.dump());
    CHECK(said["frame"] == number);
    CHECK(said["width"] == 320);
    const auto ours = rawPixels({"-i", picture}, files.folder);
    const auto theirs = rawPixels(
        {"-i", files.clip, "-vf", "select=eq(n\\," + std::to_string(number) + ")"}, files.folder);
    REQUIRE(ours.size() == 320 * 240 * 3);
    REQUIRE(theirs.size() == ours.size());
    long difference = 0;
    for (std::size_t i = 0; i < ours.size(); ++i) {
        difference +=
            std::abs(static_cast<unsigned char>(ours[i]) - static_cast<unsigned char>(theirs[i]));
    }
    CHECK(static_cast<double>(difference) / static_cast<double>(ours.size()) < 1.5);
}

TEST_CASE("inspect tells a clip's frames and rate", "[batch]")
{
    const MarkedClipFiles files;
    const auto facts = json::parse(answer({"inspect", files.clip, "--json"}));
    CHECK(facts["frames"] == 360);
    CHECK(facts["width"] == 320);
    CHECK(facts["capture_fps"] == Approx(120.0).margin(0.01));
    const auto slow =
        json::parse(answer({"inspect", files.clip, "--capture-fps", "240", "--json"}));
    CHECK(slow["capture_fps"] == Approx(240.0));
    CHECK(slow["slow_motion"] == Approx(2.0).margin(0.001));
    CHECK(answer({"inspect", files.clip}).find("360") != std::string::npos);
    CHECK(answer({"--in-process", "inspect", files.clip, "--json"}) ==
          answer({"inspect", files.clip, "--json"}));
}

TEST_CASE("every document the program writes is as its schema says", "[batch][schema]")
{
    const MarkedClipFiles files;
    const std::filesystem::path session = files.sessionFolder();
    const auto fresh = (files.folder / "fresh.json").string();
    (void)answer({"measure", session.string(), "--condition", "fresh", "--out", fresh});
    CHECK(faultBySchema("readings", json::parse(bytesOf(fresh))) == "");
    CHECK(faultBySchema("comparison", json::parse(answer({"compare", fresh, fresh, "--json"}))) ==
          "");
    CHECK(faultBySchema("inspection", json::parse(answer({"inspect", files.clip, "--json"}))) ==
          "");
    CHECK(faultBySchema("scene", json::parse(bytesOf(fresh))["clip"]["scene"]) == "");
    CHECK(faultBySchema("scene", sceneDocument()) == "");
    CHECK(faultBySchema("session", json::parse(bytesOf(session / "session.json"))) == "");
    CHECK(faultBySchema("athlete", json::parse(bytesOf(files.athlete))) == "");
}

TEST_CASE("the schemas refuse what is not so", "[batch][schema]")
{
    auto scene = sceneDocument();
    scene["scale"]["length_cm"] = 0;
    CHECK(faultBySchema("scene", scene) != "");
    const MarkedClipFiles files;
    const std::filesystem::path session = files.sessionFolder();
    auto document = json::parse(bytesOf(session / "session.json"));
    document["clips"][0]["scene"]["view"] = "above";
    CHECK(faultBySchema("session", document) != "");
    auto readings = json::parse(answer(with(files.measureArguments(), {"--json"})));
    readings["readings"][0].erase("reason");
    CHECK(faultBySchema("readings", readings) != "");
    readings["version"] = 2;
    CHECK(faultBySchema("readings", readings) != "");
}

TEST_CASE("a sheet is one page of its paper in either format", "[batch][outside]")
{
    // Read back by pdfinfo of poppler and by the size that stands in a PNG's header (W3C
    // PNG, 11.2.2).
    const MarkedClipFiles files;
    const auto session = files.sessionFolder();
    const auto [paper, points, width, height] = GENERATE(table<std::string, std::string, int, int>(
        {{"a4", "595 x 842", 1654, 2339}, {"letter", "612 x 792", 1700, 2200}}));
    const auto pdf = (files.folder / "sheet.pdf").string();
    const auto said = answer({"sheet", session, "--out", pdf, "--paper", paper});
    CHECK(said.find(pdf) != std::string::npos);
    const auto info = run("pdfinfo", {pdf});
    CAPTURE(info.out);
    CHECK(info.out.find("Pages:           1\n") != std::string::npos);
    CHECK(info.out.find(points) != std::string::npos);
    const auto png = (files.folder / "sheet.png").string();
    (void)answer({"sheet", session, "--out", png, "--paper", paper, "--json"});
    const auto bytes = bytesOf(png);
    const auto big = [&](std::size_t at) {
        return static_cast<unsigned char>(bytes[at + 2]) * 256 +
               static_cast<unsigned char>(bytes[at + 3]);
    };
    REQUIRE(bytes.size() > 1000);
    CHECK(big(16) == width);
    CHECK(big(20) == height);
}

TEST_CASE("a script's coach and contact stand on the sheet; a missing consent is told", "[batch]")
{
    const MarkedClipFiles files;
    const auto pdf = (files.folder / "sheet.pdf").string();
    const auto said = json::parse(answer({"sheet", files.sessionFolder(), "--out", pdf, "--coach",
                                          "Marit Hall", "--contact", "room 12", "--json"}));
    CHECK(said["no_consent"].get<std::string>().find("No consent") == 0);
    const auto text = run("pdftotext", {pdf, "-"});
    CHECK(text.out.find("Coach: Marit Hall, room 12") != std::string::npos);
}
