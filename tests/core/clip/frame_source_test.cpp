// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/frame_source.hpp"

#include "tests/catch.hpp"
#include "tests/core/clip/fixtures.hpp"
#include "tests/core/clip/plain_decode.hpp"

#include <atomic>
#include <future>
#include <random>
#include <thread>

using namespace latemile;
using namespace latemile::test;

namespace {

std::filesystem::path clip()
{
    return made("source.mp4",
                movingPicture(90) + "-pix_fmt yuv420p -c:v libx264 -preset fast -bf 2 -g 15");
}

/// Room for about six frames of the clip.
constexpr std::size_t smallBudget = 6 * 160 * 120 * 2;

} // namespace

TEST_CASE("the source gives the same frames as plain decoding, whatever it may keep",
          "[clip][source]")
{
    const auto plain = plainDecode(clip());
    const auto budget = GENERATE(FrameSource::defaultBudget(), smallBudget, std::size_t{1});
    const auto source = FrameSource::open(clip(), {}, budget).value();
    REQUIRE(source->index().size() == std::ssize(plain));
    std::mt19937 random(7);
    std::uniform_int_distribution<std::int64_t> anyFrame(0, source->index().size() - 1);
    for (int i = 0; i < 200; ++i) {
        const auto n = i < 90 ? i : anyFrame(random);
        const auto frame = source->frame({n});
        REQUIRE(frame);
        REQUIRE(frame->number.value == n);
        REQUIRE(hashOf(frame->picture) == plain[static_cast<std::size_t>(n)].hash);
    }
}

TEST_CASE("of many questions in a row the newest is always answered", "[clip][source]")
{
    const auto source = FrameSource::open(clip()).value();
    std::promise<std::int64_t> newest;
    std::atomic<int> answers = 0;
    for (std::int64_t n = 0; n < 89; ++n) {
        source->ask({n}, [&answers](const Outcome<Frame>&) { ++answers; });
    }
    source->ask({77}, [&](const Outcome<Frame>& frame) {
        ++answers;
        newest.set_value(frame->number.value);
    });
    CHECK(newest.get_future().get() == 77);
    CHECK(answers <= 90);
}

TEST_CASE("once a frame was shown its whole group behind it is held", "[clip][source]")
{
    const auto source = FrameSource::open(clip()).value();
    REQUIRE(source->frame({44}));
    for (std::int64_t n = 30; n <= 44; ++n) {
        INFO(n);
        CHECK(source->held({n}).has_value());
    }
}

TEST_CASE("a frame that is held is the frame itself", "[clip][source]")
{
    const auto plain = plainDecode(clip());
    const auto source = FrameSource::open(clip()).value();
    REQUIRE(source->frame({20}));
    const auto held = source->held({18});
    REQUIRE(held);
    CHECK(hashOf(held->picture) == plain[18].hash);
    CHECK(held->time == source->index().time({18}));
}

TEST_CASE("a look aside keeps what lies around the play head", "[clip][source]")
{
    // Small pictures for a table were asked for like any frame: each moved the play head, so the
    // frames around it were thrown out, and the next key press waited for a group to be decoded.
    const auto plain = plainDecode(clip());
    const auto source = FrameSource::open(clip(), {}, 2 * smallBudget).value();
    REQUIRE(source->frame({44}));
    for (const std::int64_t n : {0, 89, 12}) {
        std::promise<std::uint64_t> hash;
        source->askAside(
            {n}, [&](const Outcome<Frame>& frame) { hash.set_value(hashOf(frame->picture)); });
        CHECK(hash.get_future().get() == plain[static_cast<std::size_t>(n)].hash);
        CHECK(source->held({44}).has_value());
        CHECK(source->held({45}).has_value());
    }
}

TEST_CASE("a look aside is answered though questions come in between", "[clip][source]")
{
    const auto source = FrameSource::open(clip(), {}, smallBudget).value();
    std::promise<std::int64_t> aside;
    source->askAside({80},
                     [&](const Outcome<Frame>& frame) { aside.set_value(frame->number.value); });
    for (std::int64_t n = 0; n < 40; ++n) {
        REQUIRE(source->frame({n}));
    }
    CHECK(aside.get_future().get() == 80);
}

TEST_CASE("a frame beyond the clip is answered with a sentence", "[clip][source]")
{
    const auto source = FrameSource::open(clip()).value();
    const auto none = source->frame({90});
    REQUIRE(!none);
    CHECK(none.error().sentence == "The clip has no frame 90; its frames are 0 to 89.");
    std::promise<std::string> asked;
    source->ask({-1}, [&](const Outcome<Frame>& frame) {
        asked.set_value(frame ? "" : frame.error().sentence);
    });
    CHECK(asked.get_future().get() == "The clip has no frame -1; its frames are 0 to 89.");
    CHECK(!source->held({90}).has_value());
}

TEST_CASE("several threads may ask, look and wait at once", "[clip][source]")
{
    const auto plain = plainDecode(clip());
    const auto source = FrameSource::open(clip(), {}, smallBudget * 3).value();
    std::atomic<int> wrong = 0;
    const auto check = [&](const Outcome<Frame>& frame) {
        const auto n = frame ? static_cast<std::size_t>(frame->number.value) : 0;
        wrong += frame && hashOf(frame->picture) == plain[n].hash ? 0 : 1;
    };
    const auto work = [&](unsigned seed) {
        std::mt19937 random(seed);
        std::uniform_int_distribution<std::int64_t> anyFrame(0, 89);
        for (int i = 0; i < 40; ++i) {
            source->ask({anyFrame(random)}, check);
            check(source->frame({anyFrame(random)}));
            static_cast<void>(source->held({anyFrame(random)}));
        }
    };
    {
        std::jthread first(work, 1);
        std::jthread second(work, 2);
    }
    CHECK(wrong == 0);
}

TEST_CASE("a source may end while it is busy", "[clip][source]")
{
    for (int i = 0; i < 20; ++i) {
        const auto source = FrameSource::open(clip()).value();
        source->ask({80 - i}, [](const Outcome<Frame>&) {});
    }
    SUCCEED("none waited for ever");
}
