// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/marks/marks_file.hpp"

#include "core/whole_file.hpp"
#include "tests/catch.hpp"
#include "tests/project_folders.hpp"

using namespace latemile;

namespace {

FrameIndex hundredFrames()
{
    std::vector<Seconds> times;
    for (int i = 0; i < 100; ++i) {
        times.push_back(Seconds{0.01 * i});
    }
    return FrameIndex(times);
}

std::filesystem::path written(const std::string& name, const std::string& text)
{
    const auto folder = tests::binaryFolder() / "marks_file_test";
    std::filesystem::create_directories(folder);
    REQUIRE(replaceFile(folder / name, text));
    return folder / name;
}

Outcome<std::map<MarkKey, Mark>> marksFrom(const std::string& text)
{
    return readMarks(written("MARKS.csv", text), hundredFrames(), 640, 480);
}

Outcome<std::vector<Stance>> contactsFrom(const std::string& text)
{
    return readContacts(written("CONTACTS.csv", text), hundredFrames());
}

const std::string header = "frame,time_s,side,landmark,x_px,y_px,origin,se_px\n";
const std::string contactsHeader = "foot,contact_s,toe_off_s,origin,se_s\n";

} // namespace

TEST_CASE("marks written and read back are the same marks", "[marks]")
{
    const std::map<MarkKey, Mark> marks{
        {{{3}, BodySide::Near, Landmark::Ear}, {{10.25, 20.5}, Origin::Placed, std::nullopt}},
        {{{3}, BodySide::Far, Landmark::HeelTop}, {{1.0 / 3.0, 479.9}, Origin::Followed, 1.5}},
        {{{99}, BodySide::Left, Landmark::Psis}, {{0.5, 0.5}, Origin::Proposed, std::nullopt}},
    };
    CHECK(marksFrom(marksText(marks, hundredFrames())).value() == marks);
}

TEST_CASE("contacts written and read back are the same contacts", "[marks]")
{
    const std::vector<Stance> stances{
        {Foot::Left, Seconds{0.105}, Seconds{0.345}, Origin::Placed, std::nullopt},
        {Foot::Right, Seconds{0.455}, std::nullopt, Origin::Proposed, Seconds{0.004}},
    };
    CHECK(contactsFrom(contactsText(stances)).value() == stances);
}

TEST_CASE("columns may stand in any order and optional ones may be absent", "[marks]")
{
    const auto marks = marksFrom("landmark,side,y_px,x_px,frame\nknee,near,2,1,0\n").value();
    REQUIRE(marks.size() == 1);
    CHECK(marks.begin()->second == Mark{{1, 2}, Origin::Placed, std::nullopt});
}

TEST_CASE("every fault of a marks table names file, line and column", "[marks][bad-input]")
{
    const auto [row, part] = GENERATE(table<std::string, std::string>({
        {"3,0.03,near,ear,nan,5,placed,", "line 3, column x_px"},
        {"3,0.03,near,ear,,5,placed,", "line 3, column x_px"},
        {"3,0.03,near,ear,5000,5,placed,", "line 3, column x_px"},
        {"3,0.03,near,ear,5,-900,placed,", "line 3, column y_px"},
        {"3,0.03,near,nose,5,5,placed,", "line 3, column landmark"},
        {"3,0.03,middle,ear,5,5,placed,", "line 3, column side"},
        {"3,0.03,near,ear,5,5,guessed,", "line 3, column origin"},
        {"3,0.03,near,ear,5,5,placed,-1", "line 3, column se_px"},
        {"300,3.0,near,ear,5,5,placed,", "line 3, column frame"},
        {"-1,,near,ear,5,5,placed,", "line 3, column frame"},
        {"2.5,,near,ear,5,5,placed,", "line 3, column frame"},
        {"0,,near,hip,6,6,placed,", "line 3, column landmark"},
        {"3,0.06,near,ear,5,5,placed,", "line 3, column time_s"},
    }));
    const auto marks = marksFrom(header + "0,0,near,hip,5,5,placed,\n" + row + "\n");
    REQUIRE_FALSE(marks);
    INFO(marks.error().sentence);
    CHECK_THAT(marks.error().sentence, containing("MARKS.csv"));
    CHECK_THAT(marks.error().sentence, containing(part));
}

TEST_CASE("a marks table without a needed column says which", "[marks][bad-input]")
{
    const auto marks = marksFrom("frame,side,landmark,x_px\n0,near,hip,1\n");
    REQUIRE_FALSE(marks);
    CHECK_THAT(marks.error().sentence, containing("y_px"));
}

TEST_CASE("every fault of a contacts table names file, line and column", "[marks][bad-input]")
{
    const auto [row, part] = GENERATE(table<std::string, std::string>({
        {"left,0.6,0.5,placed,", "line 3, column toe_off_s"},
        {"left,0.2,0.5,placed,", "line 3, column contact_s"}, // still on the ground
        {"left,nan,0.5,placed,", "line 3, column contact_s"},
        {"both,0.6,0.9,placed,", "line 3, column foot"},
        {"left,7.0,7.2,placed,", "line 3, column contact_s"}, // after the end of the clip
        {"left,0.6,0.9,placed,-2", "line 3, column se_s"},
    }));
    const auto stances = contactsFrom(contactsHeader + "left,0.1,0.35,placed,\n" + row + "\n");
    REQUIRE_FALSE(stances);
    INFO(stances.error().sentence);
    CHECK_THAT(stances.error().sentence, containing("CONTACTS.csv"));
    CHECK_THAT(stances.error().sentence, containing(part));
}
