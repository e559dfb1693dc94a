// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/marked_clip_files.hpp"
#include "tests/app/program.hpp"
#include "tests/catch.hpp"

#include <algorithm>

using namespace latemile::tests;
using nlohmann::json;

namespace {

/// That the program refused: exit 1, one sentence that says `where`, no answer.
void checkRefused(const Ran& ran, const std::vector<std::string>& where)
{
    CAPTURE(ran.out, ran.err);
    CHECK(ran.exit == 1);
    CHECK(ran.out.empty());
    CHECK(std::count(ran.err.begin(), ran.err.end(), '\n') == 1);
    CHECK(ran.err.find("latemile-batch: ") == 0);
    CHECK(ran.err.ends_with(".\n"));
    for (const auto& words : where) {
        CAPTURE(words);
        CHECK(ran.err.find(words) != std::string::npos);
    }
}

/// Runs measure with a file to write and checks that it is not there afterwards, nor a part of it.
void checkMeasureRefused(const MarkedClipFiles& files, const std::vector<std::string>& where)
{
    const ScratchFolder folder;
    auto words = files.measureArguments();
    words.insert(words.end(), {"--out", (folder / "readings.json").string()});
    checkRefused(batch(words), where);
    CHECK(folder.entries() == 0);
}

/// The files, one line of the marks replaced; line 1 is the header.
void checkMarksRefused(std::size_t line, const std::string& text,
                       const std::vector<std::string>& where)
{
    static MarkedClipFiles files;
    auto lines = markLines();
    lines.at(line - 1) = text;
    files.marks = files.folder.file("MARKS.csv", joined(lines)).string();
    CAPTURE(text);
    checkMeasureRefused(files, where);
}

void checkContactsRefused(std::size_t line, const std::string& text,
                          const std::vector<std::string>& where)
{
    static MarkedClipFiles files;
    auto lines = contactLines();
    lines.at(line - 1) = text;
    files.contacts = files.folder.file("CONTACTS.csv", joined(lines)).string();
    CAPTURE(text);
    checkMeasureRefused(files, where);
}

void checkSceneRefused(const std::string& text, const std::vector<std::string>& where)
{
    static MarkedClipFiles files;
    files.scene = files.folder.file("SCENE.json", text).string();
    CAPTURE(text);
    checkMeasureRefused(files, where);
}

json sceneWith(const std::string& pointer, const json& value)
{
    auto document = sceneDocument();
    document[json::json_pointer(pointer)] = value;
    return document;
}

} // namespace

TEST_CASE("marks that cannot be are refused by file, line and column", "[batch][bad_input]")
{
    checkMarksRefused(3, "9,,near,shoulder,nan,62,placed,",
                      {"MARKS.csv line 3, column x_px", "'nan'"});
    checkMarksRefused(3, "9,,near,shoulder,,62,placed,", {"MARKS.csv line 3, column x_px"});
    checkMarksRefused(3, "9,,near,shoulder,\"1,5\",62,placed,",
                      {"MARKS.csv line 3, column x_px", "'1,5'"});
    checkMarksRefused(3, "9,,near,shoulder,154,inf,placed,", {"line 3, column y_px", "'inf'"});
    checkMarksRefused(3, "9,,near,shoulder,5000,62,placed,",
                      {"line 3, column x_px", "5000", "outside the picture"});
    checkMarksRefused(3, "9,,near,shoulder,154,-500,placed,",
                      {"line 3, column y_px", "outside the picture"});
    checkMarksRefused(3, "900,,near,shoulder,154,62,placed,",
                      {"line 3, column frame", "no frame 900", "359"});
    checkMarksRefused(3, "9.5,,near,shoulder,154,62,placed,", {"line 3, column frame", "'9.5'"});
    checkMarksRefused(3, "-1,,near,shoulder,154,62,placed,", {"line 3, column frame"});
    checkMarksRefused(3, "9,,near,tail,154,62,placed,", {"line 3, column landmark", "'tail'"});
    checkMarksRefused(3, "9,,middle,shoulder,154,62,placed,", {"line 3, column side"});
    checkMarksRefused(3, "9,,near,shoulder,154,62,guessed,", {"line 3, column origin"});
    checkMarksRefused(3, "9,,near,shoulder,154,62,placed,-1", {"line 3, column se_px"});
    checkMarksRefused(3, "9,2.5,near,shoulder,154,62,placed,", {"line 3, column time_s"});
    checkMarksRefused(3, "9,,near,ear,154,62,placed,", {"line 3", "marked twice"});
    checkMarksRefused(3, "9,,near", {"MARKS.csv line 3", "3 cells"});
    checkMarksRefused(1, "frame,time_s,side,landmark,y_px,other,origin,se_px",
                      {"MARKS.csv", "column x_px is missing"});
    checkMarksRefused(1, "frame;time_s;side;landmark;x_px;y_px;origin;se_px",
                      {"MARKS.csv line 1", "semicolons"});
    checkMarksRefused(3, "9,,near,\xFF,154,62,placed,", {"MARKS.csv line 3", "UTF-8"});
}

TEST_CASE("contacts that cannot be are refused by file, line and column", "[batch][bad_input]")
{
    checkContactsRefused(2, "left,0.5,0.25,placed,", {"CONTACTS.csv line 2, column toe_off_s"});
    checkContactsRefused(2, "left,nan,0.3,placed,", {"CONTACTS.csv line 2, column contact_s"});
    checkContactsRefused(2, "left,-0.1,0.3,placed,", {"CONTACTS.csv line 2, column contact_s"});
    checkContactsRefused(9, "right,30,30.25,placed,",
                         {"CONTACTS.csv line 9, column contact_s", "end of the clip"});
    checkContactsRefused(4, "left,0.2,0.9,placed,", {"CONTACTS.csv line 4", "still on the ground"});
    checkContactsRefused(2, "both,0.1,0.3,placed,", {"CONTACTS.csv line 2, column foot"});
    checkContactsRefused(1, "foot,toe_off_s,origin,se_s,x",
                         {"CONTACTS.csv", "column contact_s is missing"});
}

TEST_CASE("a scene that cannot be is refused by file and field", "[batch][bad_input]")
{
    checkSceneRefused(sceneWith("/scale/b", {40, 20}).dump(), {"SCENE.json", "scale"});
    checkSceneRefused(sceneWith("/scale/length_cm", 0).dump(), {"SCENE.json", "length_cm"});
    checkSceneRefused(sceneWith("/scale/length_cm", -5).dump(), {"SCENE.json", "length_cm"});
    checkSceneRefused(sceneWith("/scale/length_cm", "tall").dump(), {"SCENE.json", "length_cm"});
    checkSceneRefused(sceneWith("/plumb", nullptr).dump(), {"SCENE.json", "plumb"});
    checkSceneRefused(sceneWith("/view", "above").dump(), {"SCENE.json", "view", "'above'"});
    checkSceneRefused(sceneWith("/travel", "up").dump(), {"SCENE.json", "travel"});
    checkSceneRefused(sceneWith("/travel", "right").dump(), {"SCENE.json"});
    checkSceneRefused(sceneWith("/version", 2).dump(), {"SCENE.json", "version 2"});
    checkSceneRefused(sceneWith("/belt_speed_mps", -1).dump(), {"SCENE.json", "belt_speed_mps"});
    checkSceneRefused("{\"view\": \"left-side\",\n \"travel\": NaN}", {"SCENE.json line 2"});
    checkSceneRefused("", {"SCENE.json line 1"});
    checkSceneRefused("[]", {"SCENE.json"});
}

TEST_CASE("an athlete that cannot be is refused by file and field", "[batch][bad_input]")
{
    MarkedClipFiles files;
    files.athlete = files.folder.file("athlete.json", R"({"version": 7, "code": "K3"})").string();
    checkMeasureRefused(files, {"athlete.json", "/version", "version 7"});
    files.athlete =
        files.folder
            .file("athlete.json", R"({"version": 1, "code": "K3", "leg_length_cm": "long"})")
            .string();
    checkMeasureRefused(files, {"athlete.json", "/leg_length_cm"});
}

TEST_CASE("a missing file and a folder in a file's place are named", "[batch][bad_input]")
{
    const MarkedClipFiles whole;
    const auto member =
        GENERATE(&MarkedClipFiles::clip, &MarkedClipFiles::marks, &MarkedClipFiles::contacts,
                 &MarkedClipFiles::scene, &MarkedClipFiles::athlete);
    MarkedClipFiles files;
    files.*member = (files.folder / "none.dat").string();
    checkMeasureRefused(files, {"none.dat"});
    files.*member = files.folder.path().string();
    checkMeasureRefused(files, {files.folder.path().string()});
}

TEST_CASE("readings that cannot be compared are refused by file and field", "[batch][bad_input]")
{
    const MarkedClipFiles files;
    const auto good = (files.folder / "good.json").string();
    auto words = files.measureArguments();
    words.insert(words.end(), {"--out", good});
    REQUIRE(batch(words).exit == 0);
    const auto refused = [&](const json& document, const std::vector<std::string>& where) {
        const auto bad = files.folder.file("bad.json", document.dump()).string();
        const auto out = files.folder / "comparison.json";
        checkRefused(batch({"compare", good, bad, "--out", out.string()}), where);
        checkRefused(batch({"compare", bad, good, "--out", out.string()}), where);
        CHECK_FALSE(std::filesystem::exists(out));
    };
    auto document = json::parse(bytesOf(good));
    document["version"] = 2;
    refused(document, {"bad.json", "version 2"});
    document = json::parse(bytesOf(good));
    document["summary"][0]["mean"] = "high";
    refused(document, {"bad.json", "/summary/0/mean"});
    document = json::parse(bytesOf(good));
    document.erase("clip");
    refused(document, {"bad.json", "'clip'"});
    refused(json::array(), {"bad.json"});
    checkRefused(batch({"compare", good, (files.folder / "none.json").string()}), {"none.json"});
    checkRefused(batch({"compare", files.folder.path().string(), good}), {"folder"});
}

TEST_CASE("of two files of one name the fault says which it means", "[batch][bad_input]")
{
    const ScratchFolder folder;
    const auto fresh = folder.file("fresh/readings.json", R"({"version": 2})").string();
    const auto late = folder.file("late/readings.json", R"({"version": 3})").string();
    checkRefused(batch({"compare", fresh, late}), {fresh + ", /version"});
    checkRefused(batch({"compare", late, fresh}), {late + ", /version"});
}

TEST_CASE("a file that is no clip is refused by every word that reads one", "[batch][bad_input]")
{
    const ScratchFolder folder;
    const auto empty = folder.file("empty.mp4", "").string();
    const auto text = folder.file("text.mp4", "not a clip\n").string();
    const auto missing = (folder / "missing.mp4").string();
    const std::vector<std::string> files{missing, empty, text, folder.path().string()};
    const auto& file = files.at(GENERATE(range(std::size_t{0}, std::size_t{4})));
    const auto name = std::filesystem::path(file).filename().string();
    CAPTURE(name);
    checkRefused(batch({"inspect", file}), {name});
    const auto picture = folder / "frame.png";
    checkRefused(batch({"frame", file, "--at", "0", "--out", picture.string()}), {name});
    CHECK_FALSE(std::filesystem::exists(picture));
}

TEST_CASE("a clip whose end is missing is refused", "[batch][bad_input]")
{
    // The table of an mp4 file stands at its end as ffmpeg writes it: half a file has none.
    const MarkedClipFiles files;
    const auto bytes = bytesOf(files.clip);
    const auto cut = files.folder.file("cut.mp4", bytes.substr(0, bytes.size() / 2)).string();
    checkRefused(batch({"inspect", cut}), {"cut.mp4"});
}

TEST_CASE("a frame the clip does not have is refused and no picture is written",
          "[batch][bad_input]")
{
    const MarkedClipFiles files;
    const auto picture = files.folder / "frame.png";
    checkRefused(batch({"frame", files.clip, "--at", "360", "--out", picture.string()}),
                 {"clip.mp4", "359"});
    checkRefused(batch({"frame", files.clip, "--at", "3.5s", "--out", picture.string()}),
                 {"clip.mp4"});
    CHECK_FALSE(std::filesystem::exists(picture));
}

TEST_CASE("a place that cannot be written to is named", "[batch][bad_input]")
{
    const MarkedClipFiles files;
    auto words = files.measureArguments();
    words.insert(words.end(), {"--out", (files.folder / "none" / "readings.json").string()});
    checkRefused(batch(words), {"readings.json"});
    checkRefused(batch({"frame", files.clip, "--at", "0", "--out",
                        (files.folder / "none" / "frame.png").string()}),
                 {"frame.png"});
}

TEST_CASE("a session that cannot be is refused and no sheet is written", "[batch][bad_input]")
{
    const MarkedClipFiles files;
    const std::filesystem::path session = files.sessionFolder();
    const auto sheet = files.folder / "sheet.pdf";
    const auto refused = [&](const std::vector<std::string>& where) {
        checkRefused(batch({"sheet", session.string(), "--out", sheet.string()}), where);
        CHECK_FALSE(std::filesystem::exists(sheet));
    };
    SECTION("no such folder")
    {
        checkRefused(batch({"sheet", (files.folder / "none").string(), "--out", sheet.string()}),
                     {"none"});
    }
    SECTION("a logo that is no picture")
    {
        checkRefused(batch({"sheet", session.string(), "--out", sheet.string(), "--logo",
                            (session / "session.json").string()}),
                     {"logo", "session.json"});
        CHECK_FALSE(std::filesystem::exists(sheet));
    }
    SECTION("no athlete")
    {
        std::filesystem::remove(session.parent_path() / "athlete.json");
        refused({"athlete.json"});
    }
    SECTION("a later version")
    {
        auto document = json::parse(bytesOf(session / "session.json"));
        document["version"] = 3;
        std::ofstream(session / "session.json") << document;
        refused({"session.json", "/version", "version 3"});
        checkRefused(batch({"measure", session.string(), "--condition", "fresh"}),
                     {"session.json", "version 3"});
    }
    SECTION("a mark outside the picture")
    {
        auto document = json::parse(bytesOf(session / "session.json"));
        document["clips"][0]["marks"][0]["x_px"] = 9000;
        std::ofstream(session / "session.json") << document;
        checkRefused(batch({"measure", session.string(), "--condition", "fresh"}),
                     {"session.json", "clips/fresh.mp4", "x_px", "9000"});
    }
    SECTION("no fatigued clip")
    {
        auto document = json::parse(bytesOf(session / "session.json"));
        document["clips"].erase(1);
        std::ofstream(session / "session.json") << document;
        refused({"fatigued"});
        checkRefused(batch({"measure", session.string(), "--condition", "fatigued"}), {"fatigued"});
    }
    SECTION("a clip that is gone")
    {
        std::filesystem::remove(session / "clips" / "fatigued.mp4");
        refused({"fatigued.mp4"});
    }
}
