// SPDX-License-Identifier: GPL-3.0-or-later
// From one marked step to contacts, by the program alone: the clip and its truth are made by the
// maker's own program.
#include "core/document_schema.hpp"
#include "tests/app/program.hpp"
#include "tests/catch.hpp"
#include "tests/project_folders.hpp"
#include "tests/scratch_folder.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <sstream>

using latemile::faultBySchema;
using namespace latemile::tests;
using nlohmann::json;

namespace {

/// A clip with its truth, and as seeds the true marks of one stance of each foot.
struct MadeClip {
    ScratchFolder folder;
    std::string clip = (folder / "clip.mp4").string();
    std::string seeds;
    std::string scene = (folder / "clip.SCENE.json").string();
    json truth;

    MadeClip()
    {
        const auto made =
            run((binaryFolder() / "bin/latemile-make-clip").string(),
                {clip, "--seed", "41", "--width", "640", "--height", "360", "--duration", "2.2"});
        INFO(made.err);
        REQUIRE(made.exit == 0);
        truth = json::parse(bytesOf(folder / "clip.truth.json"));
        seeds = folder.file("SEEDS.csv", seedLines()).string();
    }

private:
    [[nodiscard]] std::string seedLines() const
    {
        std::vector<long> frames;
        for (const std::size_t i : {2U, 3U}) {
            const long on = truth["contacts"][i]["first_frame_on"];
            const long clear = truth["contacts"][i]["first_frame_clear"];
            frames.insert(frames.end(), {on, (on + clear) / 2, clear});
        }
        std::istringstream all(bytesOf(folder / "clip.MARKS.csv"));
        std::string line;
        std::getline(all, line);
        auto text = line + "\n";
        while (std::getline(all, line)) {
            if (std::find(frames.begin(), frames.end(), std::stol(line)) != frames.end()) {
                text += line + "\n";
            }
        }
        return text;
    }
};

} // namespace

TEST_CASE("one marked step is followed, and contacts are found, by two words", "[batch][follow]")
{
    const MadeClip made;
    const auto marks = (made.folder / "FOLLOWED.csv").string();
    const auto followed =
        batch({"follow", made.clip, "--marks", made.seeds, "--out", marks, "--json"});
    CAPTURE(followed.err);
    REQUIRE(followed.exit == 0);
    const auto answer = json::parse(followed.out);
    CHECK(faultBySchema("followed", answer) == "");
    CHECK(answer["followed"] > 1500);
    const auto csv = bytesOf(marks);
    CHECK(csv.find(",placed,") != std::string::npos);
    CHECK(csv.find(",followed,\n") == std::string::npos); // never without an error

    const auto out = (made.folder / "CONTACTS.csv").string();
    const auto found = batch(
        {"contacts", made.clip, "--marks", marks, "--scene", made.scene, "--out", out, "--json"});
    CAPTURE(found.err);
    REQUIRE(found.exit == 0);
    const auto contacts = json::parse(found.out);
    CHECK(faultBySchema("contacts", contacts) == "");
    for (const auto& event : made.truth["contacts"]) {
        const double at = event["contact_s"];
        const auto near = std::any_of(
            contacts["stances"].begin(), contacts["stances"].end(), [&](const json& stance) {
                return stance["foot"] == event["foot"] &&
                       std::abs(stance["contact_s"].get<double>() - at) < 1.0 / 120.0;
            });
        CAPTURE(at);
        CHECK(near);
    }
    CHECK(bytesOf(out).starts_with("foot,contact_s,toe_off_s,origin,se_s\n"));

    const auto measured = batch({"measure", made.clip, "--marks", marks, "--contacts", out,
                                 "--scene", made.scene, "--unconfirmed", "--json"});
    CAPTURE(measured.err);
    CHECK(measured.exit == 0);
}

TEST_CASE("follow and contacts refuse what they cannot use, and leave no file", "[batch][follow]")
{
    const MadeClip made;
    const ScratchFolder empty;
    const auto none = empty.file("none.csv", "frame,side,landmark,x_px,y_px,origin\n").string();
    const auto out = (made.folder / "out.csv").string();
    const auto refused = [&](const std::vector<std::string>& words, const std::string& part) {
        const auto ran = batch(words);
        CAPTURE(ran.err);
        CHECK(ran.exit == 1);
        CHECK(ran.out.empty());
        CHECK(std::count(ran.err.begin(), ran.err.end(), '\n') == 1);
        CHECK_THAT(ran.err, containing(part));
        CHECK_FALSE(std::filesystem::exists(out));
    };
    refused({"follow", made.clip, "--marks", none, "--out", out}, "mark one step");
    refused({"follow", made.clip, "--marks", made.seeds, "--last", "9999", "--out", out}, "9999");
    refused({"follow", "missing.mp4", "--marks", made.seeds, "--out", out}, "missing.mp4");
    refused({"contacts", made.clip, "--marks", made.seeds, "--scene", made.scene, "--out", out},
            "follow");
}
