// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/program.hpp"
#include "tests/catch.hpp"
#include "tests/scratch_folder.hpp"

using namespace latemile::tests;

namespace {

using Words = std::vector<std::string>;

bool isOneLine(const std::string& text)
{
    return !text.empty() && text.find('\n') == text.size() - 1;
}

} // namespace

TEST_CASE("help names the words there are and nothing is on standard error", "[batch]")
{
    const auto help = batch({"--help"});
    CHECK(help.exit == 0);
    CHECK(help.err.empty());
    for (const auto* word : {"inspect", "frame", "propose", "follow", "contacts", "review",
                             "measure", "compare", "repeat", "progress", "sheet", "check"}) {
        CAPTURE(word);
        CHECK(help.out.find(std::string("\n  ") + word + " ") != std::string::npos);
    }
    CHECK(help.out.find("--in-process") != std::string::npos);
}

TEST_CASE("each word has a help of its own that names its arguments", "[batch]")
{
    const auto [word, argument] = GENERATE(table<std::string, std::string>(
        {{"inspect", "--capture-fps F"}, {"inspect", "CLIP"},
         {"frame", "--at N|TIME"},       {"frame", "--out FILE"},
         {"propose", "--box X,Y,W,H"},   {"propose", "--frames FRAMES"},
         {"measure", "--marks FILE"},    {"measure", "--contacts FILE"},
         {"measure", "--scene FILE"},    {"measure", "--athlete FILE"},
         {"follow", "--marks FILE"},     {"contacts", "--scene FILE"},
         {"measure", "--own FILE"},      {"measure", "--explain"},
         {"measure", "--step"},          {"measure", "--json"},
         {"compare", "FRESH"},           {"compare", "FATIGUED"},
         {"repeat", "--again FILE"},     {"sheet", "SESSION_FOLDER"},
         {"sheet", "--paper"},           {"sheet", "--coach"},
         {"sheet", "--contact"},         {"sheet", "--logo FILE"},
         {"check", "LIBRARY"},           {"check", "--repair"}}));
    const auto help = batch({word, "--help"});
    CAPTURE(word, help.out);
    CHECK(help.exit == 0);
    CHECK(help.err.empty());
    CHECK(help.out.find(argument) != std::string::npos);
}

TEST_CASE("the version is the project's", "[batch]")
{
    const auto version = batch({"--version"});
    CHECK(version.exit == 0);
    CHECK(version.out == "latemile-batch " LATEMILE_VERSION "\n");
}

TEST_CASE("wrong use ends with 2, one line on standard error and nothing else", "[batch]")
{
    const auto words = GENERATE(
        as<Words>{},      // what is wrong with each:
        Words{},          // no word
        Words{"jump"},    // a word there is not
        Words{"inspect"}, // no clip
        Words{"inspect", "a.mp4", "b.mp4"}, Words{"inspect", "a.mp4", "--fast"},
        Words{"inspect", "a.mp4", "--capture-fps", "0"},
        Words{"inspect", "a.mp4", "--capture-fps", "nan"},
        Words{"inspect", "a.mp4", "--capture-fps", "fast"},
        Words{"frame", "a.mp4", "--out", "a.png"}, Words{"frame", "a.mp4", "--at", "3"},
        Words{"frame", "a.mp4", "--at", "3", "--out", "a.jpg"},
        Words{"frame", "a.mp4", "--at", "-3", "--out", "a.png"},
        Words{"frame", "a.mp4", "--at", "3.5", "--out", "a.png"},
        Words{"frame", "a.mp4", "--at", "nans", "--out", "a.png"}, Words{"measure", "a.mp4"},
        Words{"measure", "a.mp4", "--marks", "m", "--contacts", "c"},
        Words{"measure", "a", "--condition", "tired"},
        Words{"measure", "a", "--condition", "fresh", "--marks", "m"},
        Words{"measure", "a.mp4", "--marks", "m", "--contacts", "c", "--scene", "s", "--out",
              "readings.txt"},
        Words{"check"}, Words{"check", "a", "b"}, Words{"compare", "fresh.json"},
        Words{"sheet", "folder"}, Words{"sheet", "folder", "--out", "sheet.doc"},
        Words{"sheet", "folder", "--out", "sheet.pdf", "--paper", "a3"});
    CAPTURE(words);
    const auto ran = batch(words);
    CHECK(ran.exit == 2);
    CHECK(ran.out.empty());
    CHECK(isOneLine(ran.err));
    CHECK(ran.err.find("latemile-batch: ") == 0);
    CHECK(ran.err.find("--help") != std::string::npos);
}

TEST_CASE("an answer that cannot be written does not look like success", "[batch]")
{
    const auto ran = run("sh", {"-c", "exec \"$1\" --version > /dev/full", "sh", LATEMILE_BATCH});
    CHECK(ran.exit != 0);
}
