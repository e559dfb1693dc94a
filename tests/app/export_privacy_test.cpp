// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/marked_clip_files.hpp"
#include "tests/app/program.hpp"
#include "tests/catch.hpp"
#include "tests/scratch_folder.hpp"

#include <filesystem>

using namespace latemile::tests;

namespace {

namespace fs = std::filesystem;

/// The same film with what telephones and editors write into one: who, what, where, by what. Copied
/// by ffmpeg, stream by stream.
void stuff(const fs::path& clip)
{
    const auto stuffed = fs::path(clip).replace_filename("stuffed" + clip.extension().string());
    const auto ran = run("ffmpeg", {"-v",
                                    "error",
                                    "-i",
                                    clip.string(),
                                    "-c",
                                    "copy",
                                    "-movflags",
                                    "use_metadata_tags",
                                    "-metadata",
                                    "title=TellTitle",
                                    "-metadata",
                                    "artist=TellAuthor",
                                    "-metadata",
                                    "comment=TellComment",
                                    "-metadata",
                                    "make=TellMake",
                                    "-metadata",
                                    "com.apple.quicktime.model=TellModel",
                                    "-metadata",
                                    "location=+59.9139+010.7522/",
                                    "-metadata",
                                    "com.apple.quicktime.location.ISO6709=+59.9139+010.7522/",
                                    "-metadata:s:v",
                                    "handler_name=TellHandler",
                                    stuffed.string()});
    REQUIRE(ran.exit == 0);
    fs::rename(stuffed, clip);
}

/// All bytes of a file, and of a PDF what readers make of it.
std::string everythingIn(const fs::path& file)
{
    auto bytes = bytesOf(file);
    if (file.extension() == ".pdf") {
        bytes += run("pdfinfo", {"-meta", file.string()}).out;
        bytes += run("pdfinfo", {file.string()}).out;
        bytes += run("pdftotext", {file.string(), "-"}).out;
    }
    return bytes;
}

} // namespace

TEST_CASE("no export tells what a clip's file says of person, device and place",
          "[batch][privacy][outside]")
{
    const MarkedClipFiles files;
    const fs::path session = files.sessionFolder();
    std::size_t clips = 0;
    for (const auto& entry : fs::directory_iterator(session / "clips")) {
        if (entry.is_regular_file() && entry.path().extension() == ".mp4") {
            stuff(entry.path());
            CHECK(bytesOf(entry.path()).find("TellTitle") != std::string::npos);
            CHECK(bytesOf(entry.path()).find("+59.9139") != std::string::npos);
            ++clips;
        }
    }
    REQUIRE(clips > 0);
    const auto out = files.folder / "out";
    fs::create_directories(out);
    const auto at = [&out](const char* name) { return (out / name).string(); };
    const std::string folder = session.string();
    const std::string clip = (fs::directory_iterator(session / "clips"))->path().string();
    for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
             {"frame", clip, "--at", "5", "--out", at("still.png")},
             {"measure", folder, "--condition", "fresh", "--out", at("readings.json")},
             {"measure", folder, "--condition", "fresh", "--out", at("readings.csv")},
             {"compare", folder, "--out", at("comparison.csv")},
             {"export", folder, "--condition", "fresh", "--into", at("numbers")},
             {"film", folder, "--steps", "1", "--slower", "1", "--out", at("film.mp4")},
             {"sheet", folder, "--out", at("sheet.pdf")},
             {"sheet", folder, "--out", at("sheet.png")},
             {"sheet", folder, "--out", at("sheet.html")}}) {
        const auto ran = batch(words);
        INFO(words.front() << ": " << ran.err);
        CHECK(ran.exit == 0);
    }
    std::size_t written = 0;
    for (const auto& entry : fs::recursive_directory_iterator(out)) {
        if (entry.is_regular_file()) {
            const auto all = everythingIn(entry.path());
            INFO(entry.path());
            CHECK(all.find("Tell") == std::string::npos);
            CHECK(all.find("59.9139") == std::string::npos);
            ++written;
        }
    }
    CHECK(written >= 12);
}
