// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/frame_source.hpp"

#include "tests/catch.hpp"
#include "tests/core/clip/fixtures.hpp"
#include "tests/core/clip/plain_decode.hpp"
#include "tests/core/clip/worker/worker_processes.hpp"

#include <algorithm>
#include <chrono>
#include <csignal>
#include <random>
#include <thread>

using namespace latemile;
using namespace latemile::test;

namespace {

using Clock = std::chrono::steady_clock;
using std::chrono::milliseconds;

std::filesystem::path clip()
{
    return made("worker_steps.mp4", movingPicture(90, 640, 360) +
                                        "-pix_fmt yuv420p -c:v libx264 -preset fast -bf 2 -g 30");
}

void signalWorkers(int signal)
{
    for (const auto worker : children()) {
        ::kill(worker, signal);
    }
}

} // namespace

TEST_CASE("a worker killed a hundred times while stepping costs no picture", "[worker][death]")
{
    const auto plain = plainDecode(clip());
    const InWorkers inWorkers;
    // A budget of one picture, so that each step asks the worker.
    const auto source = FrameSource::open(clip(), {}, 1).value();
    std::mt19937 random(20261126);
    std::vector<Clock::duration> waits;
    for (int killed = 0; killed < 100; ++killed) {
        const auto n = static_cast<std::int64_t>(random() % plain.size());
        const auto delay = std::chrono::microseconds(random() % 4000);
        const auto victims = children();
        REQUIRE(victims.size() == 1);
        Outcome<Frame> frame;
        {
            // Before the question, while it is answered or after it, as it falls.
            const std::jthread killer([&] {
                std::this_thread::sleep_for(delay);
                ::kill(victims[0], SIGKILL);
            });
            if (killed % 2 == 0) {
                std::this_thread::sleep_for(milliseconds(2));
            }
            const auto start = Clock::now();
            frame = source->frame({n});
            waits.push_back(Clock::now() - start);
        }
        INFO("kill " << killed << ", frame " << n << ": " << (frame ? "" : frame.error().sentence));
        REQUIRE(frame);
        CHECK(hashOf(frame->picture) == plain[static_cast<std::size_t>(n)].hash);
        // The next round needs a worker that lives: one that died unasked is not yet replaced.
        static_cast<void>(source->frame({(n + 1) % std::ssize(plain)}));
    }
    std::sort(waits.begin(), waits.end());
    const auto inMilliseconds = [](Clock::duration wait) {
        return std::chrono::duration<double, std::milli>(wait).count();
    };
    INFO("median " << inMilliseconds(waits[50]) << " ms, longest " << inMilliseconds(waits[99])
                   << " ms");
    CHECK(inMilliseconds(waits[98]) < 1000);
}

TEST_CASE("a worker that hangs is given up with one sentence, and the next frame is back",
          "[worker][death]")
{
    const auto plain = plainDecode(clip());
    WorkerTerms terms;
    terms.longestSilence = milliseconds(2000);
    const InWorkers inWorkers(terms);
    auto reader = ClipReader::open(clip()).value();
    REQUIRE(reader.frame({3}));
    signalWorkers(SIGSTOP);
    const auto start = Clock::now();
    const auto frame = reader.frame({60});
    CHECK(Clock::now() - start < std::chrono::seconds(8));
    REQUIRE(!frame);
    CHECK(frame.error().sentence == "Reading \"worker_steps.mp4\" took too long and was given up; "
                                    "copy it to this machine and try again.");
    const auto again = reader.frame({60});
    REQUIRE(again);
    CHECK(hashOf(again->picture) == plain[60].hash);
}

TEST_CASE("a source whose worker hangs can be closed at once", "[worker][death]")
{
    const InWorkers inWorkers;
    auto source = FrameSource::open(clip(), {}, 1).value();
    REQUIRE(source->frame({3}));
    signalWorkers(SIGSTOP);
    source->ask({60}, [](const auto&) {});
    std::this_thread::sleep_for(milliseconds(50));
    const auto start = Clock::now();
    source.reset();
    CHECK(Clock::now() - start < std::chrono::seconds(5)); // a hanging one is waited for 15 s
    CHECK(children().empty());
}

TEST_CASE("a file replaced while it is open is still the one that was opened", "[worker][death]")
{
    const auto bytes = bytesOf(clip());
    const auto file = written("worker_replaced.mp4", bytes);
    const auto plain = plainDecode(file);
    const InWorkers inWorkers;
    auto reader = ClipReader::open(file).value();
    REQUIRE(reader.frame({3}));
    std::filesystem::remove(file);
    signalWorkers(SIGKILL);
    const auto frame = reader.frame({40});
    REQUIRE(frame);
    CHECK(hashOf(frame->picture) == plain[40].hash);
}

TEST_CASE("a worker goes with the thread that opened its clip only when the clip is closed",
          "[worker][death]")
{
    const InWorkers inWorkers;
    std::optional<ClipReader> reader;
    std::thread([&] { reader.emplace(ClipReader::open(clip()).value()); }).join();
    const auto before = children();
    REQUIRE(before.size() == 1);
    REQUIRE(reader->frame({5}));
    CHECK(children() == before);
    reader.reset();
    CHECK(children().empty());
}

TEST_CASE("two hundred clips opened and closed leave no process and no descriptor behind",
          "[worker][death]")
{
    const auto file = made("worker_single.mp4", movingPicture(1) + "-pix_fmt yuv420p -c:v libx264");
    const auto text = written("worker_text.mp4", "Notes on the run of 12 June.\n");
    const InWorkers inWorkers;
    REQUIRE(ClipReader::open(file)->frame({0}));
    const auto before = openDescriptors();
    for (int opened = 0; opened < 200; ++opened) {
        if (opened % 4 == 0) {
            CHECK(!ClipReader::open(text));
        } else {
            CHECK(ClipReader::open(file)->frame({0}));
        }
    }
    CHECK(openDescriptors() == before);
    CHECK(children().empty());
}
