// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/practice/clip_truth.hpp"

#include "core/store/session.hpp"

#include "tests/catch.hpp"
#include "tests/project_folders.hpp"
#include "tests/scratch_folder.hpp"

#include <cmath>

using namespace latemile;

namespace {

/// Two frames and one contact, written by hand; 2 px are 1 cm at the near hip.
constexpr auto document = R"({"view": "side", "near_side": "right",
    "scale": {"px_per_cm_near_hip": 2}, "landmark_order": ["ear", "hip"],
    "frames": [{"L": [[0, 0], [0, 0]], "R": [[10, 20], [30, 40]]},
               {"L": [[0, 0], [0, 0]], "R": [[11, 20], [31, 40]]}],
    "contacts": [{"side": "right", "contact_s": 0.1, "toe_off_s": 0.35},
                 {"side": "left", "contact_s": 0.45, "toe_off_s": 0.7},
                 {"side": "right", "contact_s": 0.8, "toe_off_s": 1.05}]})";

ClipTruth truth()
{
    const tests::ScratchFolder folder;
    [[maybe_unused]] const auto path = folder.file("a.truth.json", document);
    return readClipTruth(folder / "a.mp4").value();
}

} // namespace

TEST_CASE("a mark's miss is its distance in pixels and in centimetres of the near side",
          "[practice]")
{
    Marking marking;
    marking.marks[{{1}, BodySide::Near, Landmark::Hip}] = {{34, 44}, Origin::Placed, {}};
    marking.marks[{{1}, BodySide::Near, Landmark::Knee}] = {{1, 1}, Origin::Placed, {}};
    marking.marks[{{0}, BodySide::Near, Landmark::Ear}] = {{10, 20}, Origin::Placed, {}};
    const auto misses = missesOf(marking, {1}, truth());
    REQUIRE(misses.size() == 1); // the knee is not in the truth, the ear on another frame
    CHECK(misses[0].landmark == Landmark::Hip);
    CHECK(misses[0].pixels == Approx(5.0)); // 3, 4, 5
    CHECK(misses[0].centimetres == Approx(2.5));
    CHECK(missesOf(marking, {7}, truth()).empty());
}

TEST_CASE("an event's miss is against the nearest of its own foot and kind", "[practice]")
{
    const std::vector<Stance> stances{
        {Foot::Right, Seconds{0.79}, Seconds{1.06}, Origin::Placed, {}},
        {Foot::Left, Seconds{0.46}, {}, Origin::Placed, {}}};
    const auto misses = missesOf(stances, truth());
    REQUIRE(misses.size() == 3);
    CHECK(misses[0].foot == Foot::Left);
    CHECK(misses[0].late.count() == Approx(0.01));
    CHECK(misses[1].late.count() == Approx(-0.01));
    CHECK(misses[2].isToeOff);
    CHECK(misses[2].late.count() == Approx(0.01));
}

TEST_CASE("only the coach's own marks and events are practice", "[practice]")
{
    // Followed and proposed ones used to be rated as if the coach had placed them.
    Marking marking;
    marking.marks[{{1}, BodySide::Near, Landmark::Hip}] = {{34, 44}, Origin::Followed, 1.0};
    marking.marks[{{1}, BodySide::Near, Landmark::Ear}] = {{10, 20}, Origin::Proposed, 1.0};
    CHECK(missesOf(marking, {1}, truth()).empty());
    const std::vector<Stance> stances{
        {Foot::Right, Seconds{0.79}, Seconds{1.06}, Origin::Proposed, {}}};
    CHECK(missesOf(stances, truth()).empty());
}

TEST_CASE("the truth of the sample clip puts a careful coach's own marks close by", "[practice]")
{
    const auto clip = tests::sourceFolder() / "sample_clips/ilse-varga/2026-08-29/clips/fresh.mp4";
    const auto read = readClipTruth(clip);
    REQUIRE(read);
    CHECK(read->frames.size() == 672); // as ffprobe 5.1.9 counts the clip's frames
    CHECK(read->events.size() == 32);
    const auto session = readSession(clip.parent_path().parent_path()).value();
    const Marking& marking = findClip(session, "fresh")->marking;
    for (const auto& [key, mark] : marking.marks) {
        for (const MarkMiss& miss : missesOf(marking, key.frame, *read)) {
            CHECK(miss.centimetres <
                  6.0); // the hip of a careful coach: 1.2 cm an axis, a few of these
        }
    }
    for (const EventMiss& miss : missesOf(marking.stances, *read)) {
        CHECK(std::abs(miss.late.count()) < 1.5 / 120); // within a frame and a half
    }
}

TEST_CASE("a truth of a rear view or of no kind is refused in one sentence", "[practice]")
{
    const tests::ScratchFolder folder;
    [[maybe_unused]] const auto rear = folder.file("r.truth.json", R"({"view": "rear"})");
    CHECK(readClipTruth(folder / "r.mp4").error().sentence.find("from the side") !=
          std::string::npos);
    CHECK_FALSE(readClipTruth(folder / "none.mp4"));
}
