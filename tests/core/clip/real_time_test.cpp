// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/clip_reader.hpp"
#include "core/clip/frame_times.hpp"

#include "tests/catch.hpp"
#include "tests/core/clip/fixtures.hpp"
#include "tests/project_folders.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <fstream>

using namespace latemile;
using namespace latemile::test;

namespace {

const std::string x264 = "-pix_fmt yuv420p -c:v libx264 -preset fast ";

bool hasRemark(const ClipFacts& facts, const std::string& remark)
{
    return std::find(facts.remarks.begin(), facts.remarks.end(), remark) != facts.remarks.end();
}

ClipOptions stating(double rate)
{
    return {.captureRate = rate, .fieldsAsFrames = false, .videoStream = {}};
}

PacketIndex packetsAt(const std::vector<std::int64_t>& stamps)
{
    PacketIndex index;
    for (const auto stamp : stamps) {
        PacketEntry entry;
        entry.pts = stamp;
        index.packets.push_back(entry);
    }
    return index;
}

std::vector<std::int64_t> inOrder(std::size_t count)
{
    std::vector<std::int64_t> order(count);
    for (std::size_t i = 0; i < count; ++i) {
        order[i] = static_cast<std::int64_t>(i);
    }
    return order;
}

} // namespace

TEST_CASE("frame and event times are those of the reference cases", "[clip][outside]")
{
    // tests/outside/data/timing.json: arithmetic on rationals, independent of this program.
    const auto document =
        nlohmann::json::parse(bytesOf(tests::sourceFolder() / "tests/outside/data/timing.json"));
    const double tolerance = document.at("tolerance_absolute_s");
    REQUIRE(document.at("cases").size() == 4);
    for (const auto& row : document.at("cases")) {
        INFO(row.at("id"));
        const auto stamps = row.at("pts").get<std::vector<std::int64_t>>();
        const double tick =
            row.at("time_base").at(0).get<double>() / row.at("time_base").at(1).get<double>();
        std::vector<std::string> remarks;
        const auto times = frameTimes(packetsAt(stamps), inOrder(stamps.size()),
                                      {.tick = tick, .statedRate = 0}, remarks);
        std::vector<Seconds> real;
        for (const double seconds : times.seconds) {
            real.emplace_back(seconds / row.at("slow_motion_factor").get<double>());
        }
        const FrameIndex index(real);
        const auto& expect = row.at("expect");
        for (std::size_t i = 0; i < real.size(); ++i) {
            CHECK(real[i].count() ==
                  Approx(expect.at("real_time_s").at(i).get<double>()).margin(tolerance));
        }
        const FrameNumber marked{row.at("frame_marked_as_first_on_ground").get<std::int64_t>()};
        CHECK(index.eventTime(marked).count() ==
              Approx(expect.at("event_time_s").get<double>()).margin(tolerance));
        CHECK(index.interval(marked).count() * 1000 ==
              Approx(expect.at("local_interval_ms").get<double>()).margin(1e-6));
        // The frame a coach marks for that event is the one it came from.
        CHECK(index.firstAtOrAfter(index.eventTime(marked)) == marked);
    }
}

TEST_CASE("a stated capture rate turns the file's time into real time", "[clip][outside]")
{
    // The reference case "slow_motion_eightfold": 30 frames/s in the file, 240 in life.
    const auto file = made("thirty.mp4", movingPicture(24) + x264);
    const auto slow = ClipReader::open(file, stating(240)).value();
    CHECK(slow.facts().slowMotion == Approx(8));
    CHECK(slow.facts().captureRateFrom == "stated");
    CHECK(slow.index().time({4}).count() == Approx(4.0 / 240).margin(1e-9));
    CHECK(hasRemark(slow.facts(),
                    "Container says 30 frames/s; capture rate 240 stated: 8 times slow motion."));
    const auto same = ClipReader::open(file, stating(29.97)).value();
    CHECK(same.facts().slowMotion == 1);
    CHECK(same.index().time({4}).count() == Approx(4.0 / 30).margin(1e-9));
    const auto plain = ClipReader::open(file).value();
    CHECK(plain.facts().captureRateFrom == "time stamps");
    CHECK(plain.facts().captureRate == Approx(30));
}

TEST_CASE("a capture rate that a phone wrote is found and used, and the coach may overrule it",
          "[clip]")
{
    const auto file = made("phone.mp4", movingPicture(24) + x264 +
                                            "-movflags use_metadata_tags -metadata "
                                            "com.android.capture.fps=240.000000");
    const auto found = ClipReader::open(file).value();
    CHECK(found.facts().slowMotion == Approx(8));
    CHECK(found.facts().captureRateFrom == "com.android.capture.fps");
    CHECK(hasRemark(found.facts(), "Container says 30 frames/s; capture rate 240 found in the "
                                   "file: 8 times slow motion."));
    const auto overruled = ClipReader::open(file, stating(120)).value();
    CHECK(overruled.facts().slowMotion == Approx(4));
    CHECK(hasRemark(overruled.facts(),
                    "The file itself gives a capture rate of 240; check which is right."));
}

TEST_CASE("a capture rate near the file's own, or none at all, changes nothing", "[clip]")
{
    const auto* rate = GENERATE("30", "31.5", "0", "nonsense", "-240", "nan", "1e9");
    const auto file =
        made(std::string("phone_") + rate + ".mp4",
             movingPicture(6) + x264 +
                 "-movflags use_metadata_tags -metadata com.android.capture.fps=" + rate);
    const auto clip = ClipReader::open(file).value();
    INFO(rate);
    CHECK(clip.facts().slowMotion == 1);
    CHECK(clip.facts().remarks.empty());
}

TEST_CASE("times never repeat nor go back, and a repair is told", "[clip]")
{
    std::vector<std::string> remarks;
    const std::vector<std::int64_t> stamps{0, 10, 10, 30, 40, 35, 60, 70, 80, 80};
    const auto times = frameTimes(packetsAt(stamps), inOrder(stamps.size()),
                                  {.tick = 0.01, .statedRate = 0}, remarks);
    // By hand: a run that does not rise is spread evenly up to the next later stamp.
    const double expected[] = {0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9};
    for (std::size_t i = 0; i < stamps.size(); ++i) {
        CHECK(times.seconds[i] == Approx(expected[i]).margin(1e-9));
    }
    REQUIRE(remarks.size() == 1);
    CHECK(remarks[0].find("Some frames share a time") == 0);
}

TEST_CASE("times rounded to milliseconds are brought back to the even rate they fit", "[clip]")
{
    // 240 frames/s in whole milliseconds, as Matroska keeps them: 0, 4, 8, 13, 17, 21, 25, ...
    std::vector<std::int64_t> stamps;
    for (int i = 0; i < 100; ++i) {
        stamps.push_back((i * 1000 + 120) / 240);
    }
    std::vector<std::string> remarks;
    const auto times = frameTimes(packetsAt(stamps), inOrder(stamps.size()),
                                  {.tick = 0.001, .statedRate = 240}, remarks);
    CHECK(times.seconds[7] == Approx(7.0 / 240).margin(1e-9));
    CHECK(!times.isVariable);
    CHECK(remarks.size() == 1);
    // A frame that is missing among them makes the rate vary: nothing is smoothed away.
    stamps.erase(stamps.begin() + 50);
    remarks.clear();
    const auto gap = frameTimes(packetsAt(stamps), inOrder(stamps.size()),
                                {.tick = 0.001, .statedRate = 240}, remarks);
    CHECK(gap.isVariable);
    CHECK(gap.seconds[7] == Approx(0.029).margin(1e-9));
}

TEST_CASE("the nearest frame is found, of two equally near the earlier", "[clip]")
{
    const FrameIndex index({Seconds{0}, Seconds{0.1}, Seconds{0.2}, Seconds{0.5}});
    CHECK(index.nearest(Seconds{-1}) == FrameNumber{0});
    CHECK(index.nearest(Seconds{0.14}) == FrameNumber{1});
    CHECK(index.nearest(Seconds{0.36}) == FrameNumber{3});
    CHECK(index.nearest(Seconds{9}) == FrameNumber{3});
    CHECK(FrameIndex({Seconds{0}, Seconds{1}}).nearest(Seconds{0.5}) == FrameNumber{0});
    CHECK(index.interval({0}).count() == Approx(0.1));
    CHECK(index.interval({3}).count() == Approx(0.3));
    CHECK(index.eventTime({0}).count() == 0);
    CHECK(index.firstAtOrAfter(Seconds{0.6}) == FrameNumber{4});
}
