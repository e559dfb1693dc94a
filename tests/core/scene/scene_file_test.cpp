// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/json_file.hpp"
#include "core/scene/scene.hpp"
#include "core/whole_file.hpp"

#include "tests/catch.hpp"
#include "tests/project_folders.hpp"

#include <nlohmann/json.hpp>

using namespace latemile;

namespace {

const std::string whole = R"({"view":"left-side","travel":"left",
    "scale":{"a":[100,800],"b":[600,800],"length_cm":200},"plumb":{"top":[50,100],"bottom":[50,900]},
    "ground":{"y_px":850},"capture_fps":240,"belt_speed_mps":2.7,
    "lens":{"fx":1480,"fy":1480,"cx":960,"cy":540,"k1":-0.1},
    "plane":{"image":[[412,903],[1498,861],[1466,297],[436,251]],"cm":[[0,0],[200,0],[200,120],[0,120]]}})";

Outcome<Scene> sceneIn(const std::string& text)
{
    const auto folder = tests::binaryFolder() / "scene_file_test";
    std::filesystem::create_directories(folder);
    REQUIRE(replaceFile(folder / "SCENE.json", text));
    return readScene(folder / "SCENE.json");
}

std::string without(const std::string& key)
{
    auto document = nlohmann::json::parse(whole);
    document.erase(key);
    return document.dump();
}

std::string with(const std::string& pointer, const nlohmann::json& value)
{
    auto document = nlohmann::json::parse(whole);
    document[nlohmann::json::json_pointer(pointer)] = value;
    return document.dump();
}

} // namespace

TEST_CASE("a scene written and read back is the same scene", "[scene]")
{
    const auto scene = sceneIn(whole).value();
    CHECK(scene.groundV == 850.0);
    CHECK(scene.lens->k1 == -0.1);
    CHECK(sceneFrom(toJson(scene), "SCENE.json").value() == scene);
    Scene bare;
    bare.scaleByBelt = true;
    CHECK(sceneFrom(toJson(bare), "SCENE.json").value() == bare);
}

TEST_CASE("every fault of a scene names file and field", "[scene][bad-input]")
{
    const auto [text, part] = GENERATE(table<std::string, std::string>({
        {without("view"), "view"},
        {without("travel"), "travel"},
        {with("/view", "above"), "/view"},
        {with("/travel", "up"), "/travel"},
        {with("/scale/length_cm", 0), "/scale/length_cm"},
        {with("/scale/length_cm", "200"), "/scale/length_cm"},
        {with("/scale/b", {100, 800}), "/scale"},
        {with("/scale/a", {100}), "/scale/a"},
        {with("/plumb/top", {50, 950}), "/plumb"},
        {with("/capture_fps", -240), "/capture_fps"},
        {with("/belt_speed_mps", 250), "/belt_speed_mps"},
        {with("/scale_by_belt", "yes"), "/scale_by_belt"},
        {with("/lens/fx", 0), "/lens/fx"},
        {with("/plane/image", nlohmann::json::array({1, 2})), "/plane"},
        {with("/version", 9), "version"},
        {with("/travel", "right"), "mirrored"},
    }));
    const auto scene = sceneIn(text);
    REQUIRE_FALSE(scene);
    INFO(scene.error().sentence);
    CHECK_THAT(scene.error().sentence, containing("SCENE.json"));
    CHECK_THAT(scene.error().sentence, containing(part));
}

TEST_CASE("a front or rear view needs no direction of travel", "[scene]")
{
    CHECK(sceneFrom(nlohmann::json{{"view", "rear"}}, "SCENE.json"));
}
