// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/marked_clip_files.hpp"

#include "tests/app/program.hpp"

#include "tests/catch.hpp"

#include <array>
#include <cmath>

namespace latemile::tests {

namespace {

using nlohmann::json;

constexpr double frameRate = 120.0;
constexpr int stepFrames = 42;   ///< 0.35 s
constexpr int stanceFrames = 30; ///< 0.25 s
constexpr int firstContact = 10; ///< frame that first shows the left foot on the ground
constexpr int steps = 8;

struct Point {
    const char* landmark;
    double x;
    double y;
};

/// Going left, so a smaller x is further forward.
constexpr std::array posture{
    Point{"ear", 150, 30},    Point{"shoulder", 154, 62}, Point{"elbow", 162, 90},
    Point{"wrist", 146, 104}, Point{"hip", 160, 120},     Point{"knee", 132, 164},
    Point{"ankle", 120, 204}, Point{"heel", 126, 214},    Point{"toe", 98, 212}};

/// Half a frame before the frame that first shows the event.
double eventTime(int frame)
{
    return (frame - 0.5) / frameRate;
}

std::string number(double value)
{
    std::array<char, 32> text{};
    std::snprintf(text.data(), text.size(), "%.6f", value);
    return text.data();
}

std::vector<json> markRows()
{
    std::vector<json> rows;
    for (int step = 0; step < steps; ++step) {
        const int contact = firstContact + step * stepFrames;
        for (const int frame : {contact - 1, contact, contact + stanceFrames / 2 - 1,
                                contact + stanceFrames / 2, contact + stanceFrames}) {
            for (const auto& point : posture) {
                rows.push_back({{"frame", frame},
                                {"side", "near"},
                                {"landmark", point.landmark},
                                {"x_px", point.x},
                                {"y_px", point.y},
                                {"origin", "placed"}});
            }
        }
    }
    return rows;
}

std::vector<json> contactRows()
{
    std::vector<json> rows;
    for (int step = 0; step < steps; ++step) {
        const int contact = firstContact + step * stepFrames;
        rows.push_back({{"foot", step % 2 == 0 ? "left" : "right"},
                        {"contact_s", eventTime(contact)},
                        {"toe_off_s", eventTime(contact + stanceFrames)},
                        {"origin", "placed"}});
    }
    return rows;
}

json clipDocument(const std::string& condition)
{
    return {{"file", "clips/" + condition + ".mp4"},
            {"condition", condition},
            {"minute", condition == "fresh" ? 5 : 50},
            {"scene", sceneDocument()},
            {"marks", markRows()},
            {"contacts", contactRows()}};
}

const json& athleteDocument()
{
    static const json document{
        {"version", 1}, {"code", "K3"}, {"name", "Kaya Lind"}, {"leg_length_cm", 60}};
    return document;
}

/// Made once: ffmpeg takes longer to start than most of the programs that are tested with it.
const std::filesystem::path& movingStripes()
{
    static const ScratchFolder folder;
    static const auto clip = [] {
        auto file = folder / "stripes.mp4";
        const auto made = run("ffmpeg", {"-v", "error", "-f", "lavfi", "-i",
                                         "testsrc=size=320x240:rate=120:duration=3", "-c:v",
                                         "mpeg4", "-q:v", "5", "-pix_fmt", "yuv420p", file});
        INFO(made.err);
        REQUIRE(made.exit == 0);
        return file;
    }();
    return clip;
}

} // namespace

std::vector<std::string> markLines()
{
    std::vector<std::string> lines{"frame,time_s,side,landmark,x_px,y_px,origin,se_px"};
    for (const auto& row : markRows()) {
        lines.push_back(std::to_string(row["frame"].get<int>()) + ",,near," +
                        row["landmark"].get<std::string>() + "," + number(row["x_px"]) + "," +
                        number(row["y_px"]) + ",placed,");
    }
    return lines;
}

std::vector<std::string> contactLines()
{
    std::vector<std::string> lines{"foot,contact_s,toe_off_s,origin,se_s"};
    for (const auto& row : contactRows()) {
        lines.push_back(row["foot"].get<std::string>() + "," + number(row["contact_s"]) + "," +
                        number(row["toe_off_s"]) + ",placed,");
    }
    return lines;
}

json sceneDocument()
{
    return {{"view", "left-side"},
            {"travel", "left"},
            {"scale", {{"a", {40, 20}}, {"b", {40, 220}}, {"length_cm", 100}}},
            {"plumb", {{"top", {40, 20}}, {"bottom", {40, 220}}}},
            {"belt_speed_mps", 2.5}};
}

std::string joined(const std::vector<std::string>& lines)
{
    std::string text;
    for (const auto& line : lines) {
        text += line + "\n";
    }
    return text;
}

MarkedClipFiles::MarkedClipFiles()
    : clip((folder / "clip.mp4").string()),
      marks(folder.file("MARKS.csv", joined(markLines())).string()),
      contacts(folder.file("CONTACTS.csv", joined(contactLines())).string()),
      scene(folder.file("SCENE.json", sceneDocument().dump()).string()),
      athlete(folder.file("athlete.json", athleteDocument().dump()).string())
{
    std::filesystem::copy_file(movingStripes(), clip);
}

std::vector<std::string> MarkedClipFiles::measureArguments() const
{
    return {"measure", clip,      "--marks", marks,       "--contacts",
            contacts,  "--scene", scene,     "--athlete", athlete};
}

std::string MarkedClipFiles::sessionFolder() const
{
    const json session{{"version", 1},
                       {"date", "2026-03-14"},
                       {"clips", {clipDocument("fresh"), clipDocument("fatigued")}}};
    [[maybe_unused]] const auto athleteFile =
        folder.file("library/K3/athlete.json", athleteDocument().dump());
    const auto document = folder.file("library/K3/2026-03-14/session.json", session.dump());
    const auto clips = document.parent_path() / "clips";
    std::filesystem::create_directories(clips);
    std::filesystem::copy_file(clip, clips / "fresh.mp4",
                               std::filesystem::copy_options::overwrite_existing);
    std::filesystem::copy_file(clip, clips / "fatigued.mp4",
                               std::filesystem::copy_options::overwrite_existing);
    return document.parent_path().string();
}

} // namespace latemile::tests
