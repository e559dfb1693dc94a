// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/film/film_writer.hpp"

#include "tests/catch.hpp"
#include "tests/scratch_folder.hpp"

#include <nlohmann/json.hpp>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <cstdio>

using namespace latemile;
using namespace latemile::tests;

namespace {

constexpr int width = 320;
constexpr int height = 240;

/// A picture of one colour, as B, G, R, X.
std::vector<std::uint8_t> plain(std::uint8_t red, std::uint8_t green, std::uint8_t blue)
{
    std::vector<std::uint8_t> pixels;
    for (int i = 0; i < width * height; ++i) {
        pixels.insert(pixels.end(), {blue, green, red, 255});
    }
    return pixels;
}

std::vector<std::uint8_t> noise(unsigned seed)
{
    std::vector<std::uint8_t> pixels(std::size_t{4} * width * height);
    for (auto& value : pixels) {
        seed = seed * 1664525U + 1013904223U;
        value = static_cast<std::uint8_t>(seed >> 24U);
    }
    return pixels;
}

constexpr std::size_t row = std::size_t{4} * width;

Outcome<void> writeFilm(const std::filesystem::path& file, int pictures)
{
    ASSIGN_OR_RETURN(auto writer, FilmWriter::begin(file, width, height, 30));
    for (int i = 0; i < pictures; ++i) {
        RETURN_IF_ERROR(writer.add(noise(static_cast<unsigned>(i)).data(), row));
    }
    return writer.finish();
}

std::string answerOf(const std::string& command)
{
    std::string answer;
    FILE* pipe = ::popen(command.c_str(), "r");
    REQUIRE(pipe != nullptr);
    std::array<char, 4096> part{};
    for (std::size_t got = 0; (got = std::fread(part.data(), 1, part.size(), pipe)) > 0;) {
        answer.append(part.data(), got);
    }
    REQUIRE(::pclose(pipe) == 0);
    return answer;
}

} // namespace

TEST_CASE("another program reads a written film as it was made", "[film][outside]")
{
    // Outside: the ffprobe and ffmpeg programs.
    const ScratchFolder folder;
    const auto file = folder / "film.mp4";
    auto writer = FilmWriter::begin(file, width, height, 30);
    REQUIRE(writer);
    const auto red = plain(200, 30, 40);
    const auto green = plain(20, 160, 60);
    for (int i = 0; i < 45; ++i) {
        REQUIRE(writer->add((i < 20 ? red : green).data(), row));
    }
    REQUIRE(writer->finish());
    const auto told = nlohmann::json::parse(
        answerOf("ffprobe -v error -count_frames -show_streams -show_format -of json '" +
                 file.string() + "'"));
    const auto& stream = told["streams"][0];
    CHECK(told["streams"].size() == 1);
    CHECK(stream["codec_name"] == "h264");
    CHECK(stream["nb_read_frames"] == "45");
    CHECK(stream["r_frame_rate"] == "30/1");
    CHECK(stream["width"] == width);
    CHECK(stream["pix_fmt"] == "yuv420p");
    CHECK(stream["color_space"] == "bt709");
    CHECK(std::stod(told["format"]["duration"].get<std::string>()) == Approx(1.5).margin(0.001));
    const auto pixels =
        answerOf("ffmpeg -v error -i '" + file.string() + "' -pix_fmt rgb24 -f rawvideo -");
    constexpr std::size_t picture = std::size_t{3} * width * height;
    REQUIRE(pixels.size() == 45 * picture);
    const auto at = [&](std::size_t frame, std::size_t channel) {
        return static_cast<int>(
            static_cast<std::uint8_t>(pixels[frame * picture + picture / 2 + channel]));
    };
    CHECK(at(5, 0) == Approx(200).margin(4));
    CHECK(at(5, 1) == Approx(30).margin(4));
    CHECK(at(19, 2) == Approx(40).margin(4));
    CHECK(at(40, 1) == Approx(160).margin(4));
    CHECK(at(44, 0) == Approx(20).margin(4));
}

TEST_CASE("a film's data about itself name no person, device, place or day", "[film][privacy]")
{
    const ScratchFolder folder;
    const auto file = folder / "film.mp4";
    REQUIRE(writeFilm(file, 3));
    const auto told = nlohmann::json::parse(
        answerOf("ffprobe -v error -show_format -show_streams -of json '" + file.string() + "'"));
    for (const auto& [key, value] : told["format"]["tags"].items()) {
        CAPTURE(key);
        const bool harmless =
            key == "major_brand" || key == "minor_version" || key == "compatible_brands";
        CHECK(harmless);
    }
    for (const auto& [key, value] : told["streams"][0]["tags"].items()) {
        CAPTURE(key);
        const bool harmless = key == "language" || key == "handler_name" || key == "vendor_id";
        CHECK(harmless);
    }
    CHECK((std::filesystem::status(file).permissions() & std::filesystem::perms::all) ==
          (std::filesystem::perms::owner_read | std::filesystem::perms::owner_write));
}

TEST_CASE("an unfinished film leaves nothing, and an older one stands", "[film]")
{
    const ScratchFolder folder;
    const auto file = folder.file("film.mp4", "older");
    {
        auto writer = FilmWriter::begin(file, width, height, 30);
        REQUIRE(writer);
        REQUIRE(writer->add(noise(1).data(), row));
    }
    CHECK(bytesOf(file) == "older");
    CHECK(folder.entries() == 1);
}

TEST_CASE("a place that cannot be written to is named before any work", "[film][refusals]")
{
    const ScratchFolder folder;
    const auto writer = FilmWriter::begin(folder / "absent" / "film.mp4", width, height, 30);
    REQUIRE_FALSE(writer);
    CHECK(writer.error().sentence.find("film.mp4") != std::string::npos);
    CHECK(folder.entries() == 0);
}

TEST_CASE("a full disk gives a sentence and no part of a film", "[film][refusals]")
{
    // A limit on the size of files ends a write as a full disk does: short, then with an error.
    const ScratchFolder folder;
    REQUIRE(writeFilm(folder / "whole.mp4", 40));
    const auto size = std::filesystem::file_size(folder / "whole.mp4");
    for (const double share : {0.0, 0.001, 0.2, 0.5, 0.9, 0.99}) {
        const auto room = static_cast<rlim_t>(share * static_cast<double>(size));
        const pid_t child = ::fork();
        if (child == 0) {
            const rlimit limit{room, room};
            std::signal(SIGXFSZ, SIG_IGN);
            ::setrlimit(RLIMIT_FSIZE, &limit);
            const auto done = writeFilm(folder / "film.mp4", 40);
            const bool said = !done && done.error().sentence.find("film.mp4") != std::string::npos;
            ::_exit(said ? 0 : 1);
        }
        int status = 0;
        ::waitpid(child, &status, 0);
        CAPTURE(share, room, size);
        CHECK(status == 0);
        CHECK(folder.entries() == 1);
    }
}
