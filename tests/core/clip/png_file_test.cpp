// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/png_file.hpp"

#include "core/clip/clip_reader.hpp"
#include "tests/catch.hpp"
#include "tests/core/clip/fixtures.hpp"

#include <filesystem>

using namespace latemile;
using namespace latemile::test;

namespace {

Picture somePicture()
{
    const auto file =
        made("for_png.mp4", movingPicture(5, 130, 70) + "-pix_fmt yuv420p -c:v libx264");
    return ClipReader::open(file)->frame({3})->picture;
}

std::size_t filesIn(const std::filesystem::path& folder)
{
    return static_cast<std::size_t>(std::distance(std::filesystem::directory_iterator(folder), {}));
}

} // namespace

TEST_CASE("a PNG holds the picture pixel by pixel, as the ffmpeg program reads it",
          "[clip][outside]")
{
    const auto picture = somePicture();
    const auto file = fixtureFolder() / "written.png";
    REQUIRE(writePng(picture, file));
    const auto raw = outputOf("-i @written.png -pix_fmt bgra -f rawvideo");
    const auto rowBytes = static_cast<std::size_t>(picture.width()) * 4;
    REQUIRE(raw.size() == rowBytes * static_cast<std::size_t>(picture.height()));
    std::string ours;
    for (int y = 0; y < picture.height(); ++y) {
        ours.append(reinterpret_cast<const char*>(picture.row(y)), rowBytes);
    }
    CHECK(ours == raw);
}

TEST_CASE("a PNG that cannot be written leaves nothing behind and says why", "[clip]")
{
    const auto picture = somePicture();
    const auto missing = writePng(picture, fixtureFolder() / "no_such_folder" / "a.png");
    REQUIRE(!missing);
    CHECK(missing.error().kind == Error::Kind::NotFound);
    CHECK(missing.error().sentence.find("its folder does not exist") != std::string::npos);

    const auto folder = fixtureFolder() / "folder.png";
    std::filesystem::create_directories(folder);
    const auto before = filesIn(fixtureFolder());
    const auto isFolder = writePng(picture, folder);
    REQUIRE(!isFolder);
    CHECK(isFolder.error().sentence.find("there is a folder of that name") != std::string::npos);
    const auto isEmpty = writePng(Picture{}, fixtureFolder() / "empty.png");
    CHECK(!isEmpty);
    CHECK(filesIn(fixtureFolder()) == before);
}
