// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/coco.hpp"
#include "core/json_file.hpp"
#include "tests/catch.hpp"
#include "tests/core/measures/worked_example.hpp"
#include "tests/scratch_folder.hpp"

using namespace latemile;
using namespace latemile::testing;
using namespace latemile::tests;

namespace {

constexpr int width = 1920;
constexpr int height = 1080;

nlohmann::json exampleCoco()
{
    auto clip = exampleClip();
    auto& marks = clip.marking.marks;
    marks.at({{113}, BodySide::Near, Landmark::Hip}).origin = Origin::Followed;
    marks.at({{113}, BodySide::Near, Landmark::Hip}).sePx.reset();
    marks.erase({{113}, BodySide::Near, Landmark::Ear});
    marks[{{176}, BodySide::Far, Landmark::Toe}] = {{700.125, 1001.0625}, Origin::Proposed, 7.5};
    return cocoKeypoints(clip.marking, clip.index, {"fresh.mp4", width, height});
}

Outcome<std::map<MarkKey, Mark>> readBack(const nlohmann::json& document)
{
    const ScratchFolder folder;
    const auto file = folder.file("keypoints.json", jsonText(document));
    return readCoco(file, exampleIndex(), width, height);
}

} // namespace

TEST_CASE("marks come back from COCO keypoints as they went, origin too", "[exchange][coco]")
{
    const auto document = exampleCoco();
    const auto back = readBack(document);
    REQUIRE(back);
    Marking marking;
    marking.marks = *back;
    CHECK(back->size() == 27);
    CHECK(marking.find({{113}, BodySide::Near, Landmark::Ear}) == nullptr);
    const auto* hip = marking.find({{113}, BodySide::Near, Landmark::Hip});
    REQUIRE(hip != nullptr);
    CHECK(hip->origin == Origin::Followed);
    CHECK_FALSE(hip->sePx);
    CHECK(cocoKeypoints(marking, exampleIndex(), {"fresh.mp4", width, height}) == document);
}

TEST_CASE("COCO keypoints have the fields of the published format", "[exchange][coco][outside]")
{
    // Outside: cocodataset.org, "Data format", object and keypoint detection (from memory).
    const auto document = exampleCoco();
    const auto& category = document["categories"][0];
    const auto count = category["keypoints"].size();
    CHECK(count == 10);
    for (const auto& line : category["skeleton"]) {
        CHECK(line[0] >= 1);
        CHECK(line[1] <= count);
    }
    for (const auto& annotation : document["annotations"]) {
        REQUIRE(annotation["keypoints"].size() == 3 * count);
        int labelled = 0;
        for (std::size_t i = 0; i < count; ++i) {
            const int v = annotation["keypoints"][3 * i + 2];
            labelled += v > 0;
            if (v == 0) {
                CHECK(annotation["keypoints"][3 * i] == 0);
            }
        }
        CHECK(annotation["num_keypoints"] == labelled);
        CHECK(annotation["bbox"][2].get<double>() * annotation["bbox"][3].get<double>() ==
              Approx(annotation["area"].get<double>()));
        CHECK(annotation["iscrowd"] == 0);
    }
    CHECK(document["images"].size() == document["annotations"].size());
}

TEST_CASE("COCO keypoints that do not belong to the clip are refused with the place",
          "[exchange][coco][refusals]")
{
    auto document = exampleCoco();
    const auto saying = [&document](const std::string& words) {
        const auto back = readBack(document);
        REQUIRE_FALSE(back);
        CAPTURE(back.error().sentence);
        CHECK(back.error().sentence.find("keypoints.json") == 0);
        CHECK(back.error().sentence.find(words) != std::string::npos);
    };
    SECTION("another picture size")
    {
        document["images"][1]["width"] = 640;
        saying("/images/1: a picture of 640 x 1080 pixels");
    }
    SECTION("a frame the clip does not have")
    {
        document["images"][0]["frame"] = 5000;
        saying("has no frame 5000");
    }
    SECTION("a landmark nobody knows")
    {
        document["categories"][0]["keypoints"][0] = "nose";
        saying("'nose' is none of the landmarks");
    }
    SECTION("too few numbers")
    {
        document["annotations"][0]["keypoints"].erase(0);
        saying("/annotations/0/keypoints");
    }
    SECTION("an annotation without its image")
    {
        document["annotations"][0]["image_id"] = 9999;
        saying("there is no image 9999");
    }
    SECTION("two runners")
    {
        document["annotations"].push_back(document["annotations"][0]);
        saying("is marked twice on frame 50");
    }
    SECTION("an origin nobody knows")
    {
        document["annotations"][0]["origin"][0] = "guessed";
        saying("'guessed' is not placed, followed or proposed");
    }
}

TEST_CASE("COCO points without an origin count as proposed", "[exchange][coco]")
{
    auto document = exampleCoco();
    for (auto& annotation : document["annotations"]) {
        annotation.erase("origin");
        annotation.erase("se_px");
    }
    const auto back = readBack(document);
    REQUIRE(back);
    for (const auto& [key, mark] : *back) {
        CHECK(mark.origin == Origin::Proposed);
        CHECK_FALSE(mark.sePx);
    }
}
