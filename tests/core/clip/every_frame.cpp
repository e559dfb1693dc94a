// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/clip/every_frame.hpp"

#include "tests/catch.hpp"
#include "tests/core/clip/plain_decode.hpp"

#include <algorithm>
#include <numeric>
#include <random>
#include <vector>

namespace latemile::test {

void checkEveryFrame(const std::filesystem::path& file, const ClipOptions& options)
{
    INFO(file.string());
    const auto plain = plainDecode(file, options.videoStream.value_or(-1));
    REQUIRE(!plain.empty());
    auto opened = ClipReader::open(file, options);
    INFO((opened ? "" : opened.error().sentence + " / " + opened.error().detail));
    REQUIRE(opened);
    auto& reader = *opened;
    REQUIRE(reader.index().size() == std::ssize(plain));

    std::vector<std::int64_t> order(plain.size());
    std::iota(order.begin(), order.end(), 0);
    const auto checkInOrder = [&](const char* way) {
        INFO(way);
        for (const auto n : order) {
            INFO("frame " << n);
            const auto frame = reader.frame({n});
            INFO((frame ? "" : frame.error().sentence));
            REQUIRE(frame);
            REQUIRE(frame->number.value == n);
            REQUIRE(hashOf(frame->picture) == plain[static_cast<std::size_t>(n)].hash);
        }
    };
    checkInOrder("forward");
    std::reverse(order.begin(), order.end());
    checkInOrder("backward");
    std::mt19937 random(20261125);
    std::shuffle(order.begin(), order.end(), random);
    checkInOrder("shuffled");
}

} // namespace latemile::test
