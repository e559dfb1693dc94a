// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/session.hpp"

#include "tests/catch.hpp"
#include "tests/scratch_folder.hpp"

#include <nlohmann/json.hpp>

using namespace latemile;
using nlohmann::json;

namespace {

/// A session as the documentation of the format writes it, by hand.
json sessionDocument()
{
    return json::parse(R"({
        "version": 1, "date": "2026-08-29", "coach": "R. Vale", "note": "windy",
        "measures": ["foot_ahead"], "cues": ["land_under"],
        "clips": [{
            "file": "clips/fresh.mp4", "condition": "fresh", "minute": 6, "incline_percent": 1,
            "shoes": "own", "exertion": 3, "pain": false,
            "scene": {"view": "left-side", "travel": "left",
                      "scale": {"a": [100, 50], "b": [100, 450], "length_cm": 200},
                      "plumb": {"top": [100, 50], "bottom": [100, 450]}, "belt_speed_mps": 2.7},
            "marks": [{"frame": 12, "side": "near", "landmark": "hip", "x_px": 600.25,
                       "y_px": 310.5, "origin": "placed", "se_px": 1.5},
                      {"frame": 12, "side": "far", "landmark": "hip", "x_px": 601,
                       "y_px": 311, "origin": "proposed"}],
            "contacts": [{"foot": "right", "contact_s": 0.5, "toe_off_s": 0.75, "origin": "placed",
                          "se_s": 0.004},
                         {"foot": "left", "contact_s": 0.125, "origin": "followed"}]
        }]})");
}

struct Folder : tests::ScratchFolder {
    explicit Folder(const json& document) { writeDocument(document.dump()); }
    void writeDocument(const std::string& text) const
    {
        [[maybe_unused]] const auto path = file("session.json", text);
    }
};

std::string faultOf(const json& document)
{
    const Folder folder(document);
    const auto read = readSession(folder.path());
    if (read) {
        return "no fault";
    }
    const std::string file = (folder / "session.json").string();
    const auto& sentence = read.error().sentence;
    return sentence.starts_with(file) ? sentence.substr(file.size()) : "unnamed: " + sentence;
}

std::string faultWith(const std::string& pointer, const json& value)
{
    auto document = sessionDocument();
    document[json::json_pointer(pointer)] = value;
    return faultOf(document);
}

} // namespace

TEST_CASE("a session says what its document says", "[session]")
{
    const Folder folder(sessionDocument());
    const auto session = readSession(folder.path()).value();
    CHECK(session.date == "2026-08-29");
    CHECK(session.coach == "R. Vale");
    CHECK(session.measures == std::vector<std::string>{"foot_ahead"});
    REQUIRE(session.clips.size() == 1);
    const auto& clip = session.clips[0];
    CHECK(clip.minute == 6.0);
    CHECK(clip.pain == false);
    CHECK(clip.scene.beltSpeed == 2.7);
    CHECK(clip.scene.scale->lengthCm == 200.0);
    const auto* hip = clip.marking.find({{12}, BodySide::Near, Landmark::Hip});
    REQUIRE(hip != nullptr);
    CHECK(*hip == Mark{{600.25, 310.5}, Origin::Placed, 1.5});
    REQUIRE(clip.marking.stances.size() == 2);
    CHECK(clip.marking.stances[0] ==
          Stance{Foot::Left, Seconds{0.125}, std::nullopt, Origin::Followed, std::nullopt});
    CHECK(clip.marking.stances[1] ==
          Stance{Foot::Right, Seconds{0.5}, Seconds{0.75}, Origin::Placed, Seconds{0.004}});
}

TEST_CASE("a written session reads back as the same value", "[session]")
{
    const Folder folder(sessionDocument());
    auto session = readSession(folder.path()).value();
    session.note = "Zo\xC3\xAB said \"fine\"\nand went on";
    session.clips[0].marking.marks.begin()->second.at.u = 0.1 + 0.2;
    REQUIRE(writeSession(session, folder.path()));
    CHECK(readSession(folder.path()).value() == session);
    CHECK(folder.entries() == 2); // and what was there before
    CHECK(tests::bytesOf(folder.path() / "session.previous.json") == sessionDocument().dump());
}

TEST_CASE("a damaged session is refused with its place", "[session]")
{
    CHECK(faultOf(sessionDocument()) == "no fault");
    CHECK(faultWith("/version", 2).find(", /version: the document is of version 2") == 0);
    CHECK(faultWith("/date", "29.8.2026") ==
          ", /date: a date reads like 2026-08-29, not '29.8.2026'.");
    CHECK(faultWith("/date", "2026-02-30").find(", /date: ") == 0);
    CHECK(faultWith("/clips/0/condition", "tired").find(", /clips/0/condition: ") == 0);
    CHECK(faultWith("/clips/0/exertion", 11).find(", /clips/0/exertion: ") == 0);
    CHECK(faultWith("/clips/0/scene", nullptr).find(", /clips/0: the field 'scene'") == 0);
    CHECK(faultWith("/clips/0/scene/view", "above").find(", /clips/0/scene") == 0);
    CHECK(faultWith("/clips/0/marks/1/x_px", "nan") ==
          ", /clips/0/marks/1/x_px: a number is wanted here, not \"nan\".");
    CHECK(faultWith("/clips/0/marks/1/landmark", "tail") ==
          ", /clips/0/marks/1/landmark: 'tail' is no landmark.");
    CHECK(faultWith("/clips/0/marks/1/frame", 1.5).find(", /clips/0/marks/1/frame: ") == 0);
    CHECK(faultWith("/clips/0/marks/1/side", "near") ==
          ", /clips/0/marks/1: the near hip is marked twice on frame 12.");
    CHECK(faultWith("/clips/0/contacts/0/toe_off_s", 0.25) ==
          ", /clips/0/contacts/0/toe_off_s: the toe-off at 0.25 s is not after the contact at 0.5 "
          "s.");
    CHECK(faultWith("/cues", {"a", "b", "c"}) == ", /cues: at most two cues stand on a sheet.");
}

TEST_CASE("two stances of a foot at once are refused in whatever order they stand", "[session]")
{
    auto document = sessionDocument();
    document["clips"][0]["contacts"] = json::parse(
        R"([{"foot": "left", "contact_s": 1.0, "toe_off_s": 1.25, "origin": "placed"},
            {"foot": "left", "contact_s": 0.5, "toe_off_s": 1.125, "origin": "placed"}])");
    CHECK(faultOf(document).find(", /clips/0/contacts/0/contact_s: the left foot lands at 1 s") ==
          0);
}

TEST_CASE("a clip outside the session's folder is refused", "[session]")
{
    CHECK(faultWith("/clips/0/file", "clips/late run.mp4") == "no fault");
    const auto file =
        GENERATE(as<std::string>{}, "/etc/passwd", "../other/fresh.mp4", "clips/../../x.mp4", "");
    CAPTURE(file);
    CHECK(faultWith("/clips/0/file", file).find(", /clips/0/file: ") == 0);
}

TEST_CASE("a session that is not there is named", "[session]")
{
    const tests::ScratchFolder folder;
    const auto read = readSession(folder.path());
    REQUIRE_FALSE(read);
    CHECK(read.error().sentence.find("session.json") != std::string::npos);
}

TEST_CASE("an athlete reads back as written, with what is not known left out", "[session]")
{
    const tests::ScratchFolder folder;
    Athlete athlete;
    athlete.code = "A7";
    athlete.legLengthCm = 88.5;
    const auto file = folder / "athlete.json";
    REQUIRE(writeAthlete(athlete, file));
    CHECK(readAthlete(file).value() == athlete);
    const auto bad = folder.file("bad.json", R"({"version": 1, "code": "A7", "mass_kg": -1})");
    CHECK(readAthlete(bad).error().sentence.find("bad.json, /mass_kg: ") != std::string::npos);
    CHECK(readAthlete(folder.file("hand.json", R"({"code": "A7"})")).value().code == "A7");
    const auto other = folder.file("other.json", R"({"version": 9, "code": "A7"})");
    CHECK(readAthlete(other).error().kind == Error::Kind::Unsupported);
}

TEST_CASE("a clip is found by its condition among those filmed from a side", "[session]")
{
    Session session;
    session.clips.resize(3);
    session.clips[0].condition = "fatigued";
    session.clips[0].scene.view = View::Rear;
    session.clips[1].condition = "fatigued";
    session.clips[2].condition = "fatigued";
    CHECK(findClip(session, "fatigued") == &session.clips[1]);
    CHECK(findClip(session, "fresh") == nullptr);
}
