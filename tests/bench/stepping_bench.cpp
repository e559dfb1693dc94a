// SPDX-License-Identifier: GPL-3.0-or-later
// How much memory stepping through a clip takes, in the program and in its worker, over minutes:
//
//   bench_stepping [SECONDS] [CLIP]     without a clip: 3840 x 2160 at 240 frames/s, made once
//
// Through the window's own feed of frames, as its keys do: held forwards, held backwards, jumps
// with small pictures asked for meanwhile. Ends with 1 where the goal is missed.
#include "core/clip/frame_source.hpp"
#include "core/clip/worker/decoding_place.hpp"
#include "core/clip/worker/worker_main.hpp"
#include "tests/bench/bench_clip.hpp"
#include "tests/bench/bench_memory.hpp"
#include "ui/document/frame_feed.hpp"

#include <QCoreApplication>
#include <QElapsedTimer>
#include <QTimer>

#include <algorithm>
#include <array>
#include <cstdio>
#include <random>

using namespace latemile;
using namespace latemile::ui;

namespace {

constexpr double mostBeside = 700; ///< MB above the budget of held pictures
constexpr int ticksASecond = 60;   ///< as a held key
constexpr int ticksOfAWay = 600;   ///< so long one way of going on is kept
constexpr int ticksBetweenJumps = 15;
constexpr int secondsALine = 10;

constexpr std::array ways{"forwards", "backwards", "jumps"};

class Stepper : public QObject {
public:
    Stepper(FrameFeed& feed, int seconds) : m_feed(feed), m_seconds(seconds)
    {
        connect(&m_tick, &QTimer::timeout, this, &Stepper::step);
        connect(&m_look, &QTimer::timeout, this, &Stepper::look);
        connect(&feed, &FrameFeed::failed, this,
                [](const QString& sentence) { stop(qPrintable(sentence)); });
        connect(&feed, &FrameFeed::opened, this, [this] {
            m_clock.start();
            m_tick.start(1000 / ticksASecond);
            m_look.start(50);
        });
    }
    [[nodiscard]] double most() const { return m_most; }

private:
    void step()
    {
        const auto count = m_feed.index().size();
        const auto way = static_cast<std::size_t>(m_ticks / ticksOfAWay) % ways.size();
        if (way == 2 && m_ticks % ticksBetweenJumps == 0) {
            m_at = std::uniform_int_distribution<std::int64_t>(0, count - 1)(m_dice);
            m_feed.askSmall(this, {(m_at + count / 2) % count}, [](const Frame&) {});
        } else if (way != 2) {
            m_at = (m_at + (way == 0 ? 1 : count - 1)) % count;
        }
        m_feed.ask(this, {m_at}, [this](const Frame&) { ++m_answers; });
        ++m_ticks;
    }
    void look()
    {
        const double own = megabytesOf("self", {"VmRSS:"});
        const double workers = megabytesOfWorkers({"VmRSS:"});
        m_most = std::max(m_most, own + workers);
        const auto second = static_cast<int>(m_clock.elapsed() / 1000);
        if (second >= m_told + secondsALine) {
            m_told = second;
            const auto way = static_cast<std::size_t>(m_ticks / ticksOfAWay) % ways.size();
            std::printf("%5d s  %-9s %7d frames  %7.0f MB here  %7.0f MB in its worker  "
                        "%7.0f MB most together\n",
                        second, ways[way], m_answers, own, workers, m_most);
            std::fflush(stdout);
        }
        if (second >= m_seconds) {
            QCoreApplication::quit();
        }
    }

    FrameFeed& m_feed;
    const int m_seconds;
    QTimer m_tick;
    QTimer m_look;
    QElapsedTimer m_clock;
    std::mt19937 m_dice{5};
    std::int64_t m_at{};
    int m_ticks{};
    int m_answers{};
    int m_told{};
    double m_most{};
};

} // namespace

int main(int argc, char** argv)
{
    serveIfWorker(argc, argv);
    decodeInWorkers();
    QCoreApplication application(argc, argv);
    const int seconds = argc > 1 ? std::max(1, std::atoi(argv[1])) : 600;
    const auto clip = argc > 2 ? std::filesystem::path(argv[2]) : largeBenchClip();
    FrameFeed feed;
    Stepper stepper(feed, seconds);
    feed.open(clip, {});
    QCoreApplication::exec();
    const double budget = static_cast<double>(FrameSource::defaultBudget()) / (1 << 20);
    const double goal = budget + mostBeside;
    std::printf("most together %.0f MB; goal %.0f (a budget of %.0f for all clips and %.0f)\n",
                stepper.most(), goal, budget, mostBeside);
    return stepper.most() < goal ? 0 : 1;
}
