// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/propose/pictures.hpp"

#include "core/clip/clip_reader.hpp"
#include "tests/project_folders.hpp"

#include <stdexcept>

namespace latemile::tests {

Picture painted(int width, int height, const std::function<Colour(int x, int y)>& colour)
{
    const auto stride = static_cast<std::size_t>(width) * 4;
    std::shared_ptr<std::uint8_t> pixels(
        new std::uint8_t[stride * static_cast<std::size_t>(height)],
        std::default_delete<std::uint8_t[]>());
    auto* to = pixels.get();
    for (int y = 0; y < height; ++y) {
        for (int x = 0; x < width; ++x) {
            for (const auto value : colour(x, y)) {
                *to++ = value;
            }
            *to++ = 255;
        }
    }
    return {width, height, stride, std::move(pixels)};
}

Colour colourAt(const Picture& picture, int x, int y)
{
    if (x < 0 || y < 0 || x >= picture.width() || y >= picture.height()) {
        return {0, 0, 0};
    }
    const auto* pixel = picture.row(y) + 4 * x;
    return {pixel[0], pixel[1], pixel[2]};
}

std::filesystem::path sampleClip()
{
    return sourceFolder() / "sample_clips/ilse-varga/2026-08-29/clips/late.mp4";
}

Picture sampleFrame(int number)
{
    auto clip = ClipReader::open(sampleClip());
    const auto frame = clip ? clip->frame({number}) : Outcome<Frame>(Frame{});
    if (!frame || frame->picture.isEmpty()) {
        throw std::runtime_error("the sample clip cannot be read");
    }
    return frame->picture;
}

std::filesystem::path resources()
{
    return sourceFolder() / "resources";
}

} // namespace latemile::tests
