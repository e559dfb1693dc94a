// SPDX-License-Identifier: GPL-3.0-or-later
// A worker as a hostile file could make one: what it does wrong stands in the name of the file it
// is given, before the first point.
#include "core/clip/worker/channel.hpp"
#include "core/clip/worker/opening_message.hpp"
#include "core/clip/worker/sandbox.hpp"
#include "core/clip/worker/sent_picture.hpp"

#include <chrono>
#include <cstdlib>
#include <functional>
#include <map>
#include <string>
#include <thread>

using namespace latemile;

namespace {

constexpr std::int64_t frames = 10;

struct Talk {
    Channel channel{Descriptor(workerSocket), Channel::End::Worker};

    void say(Say word, const Packing& body = {}) const
    {
        if (!channel.send(word, body)) {
            std::_Exit(0);
        }
    }
    [[nodiscard]] Message hear() const
    {
        auto message = channel.receive();
        if (!message) {
            std::_Exit(0);
        }
        return *std::move(message);
    }
};

OpeningAnswer plainAnswer()
{
    OpeningAnswer answer;
    answer.shape = {.storedWidth = 160, .storedHeight = 120, .pixelAspect = 1, .orientation = {}};
    answer.facts.captureRate = 30;
    std::vector<Seconds> times;
    for (std::int64_t n = 0; n < frames; ++n) {
        times.emplace_back(static_cast<double>(n) / 30);
        answer.groupStarts.push_back(0);
    }
    answer.index = FrameIndex(std::move(times));
    return answer;
}

Packing picture(std::int64_t rank, int format, int width, int height)
{
    Packing body;
    body.add(rank).add(false);
    SentPicture{.format = format, .width = width, .height = height}.addTo(body);
    return body;
}

using Deed = std::function<void(const Talk&)>;

void waitForEver(const Talk&)
{
    std::this_thread::sleep_for(std::chrono::hours(1));
}

void breakDown(const Talk&)
{
    std::abort();
}

/// Alive, yet never done.
void babble(const Talk& talk)
{
    while (true) {
        talk.say(Say::Alive);
        std::this_thread::sleep_for(std::chrono::milliseconds(20));
    }
}

void sayNoise(const Talk& talk)
{
    talk.say(static_cast<Say>(0x6c696174), Packing().add(std::string(3000, '\xff')));
}

Deed saying(Say word, const Packing& body)
{
    return [=](const Talk& talk) { talk.say(word, body); };
}

const std::map<std::string, Deed>& deedsAtOpening()
{
    static const std::map<std::string, Deed> deeds{
        {"open_hang", waitForEver},
        {"open_break", breakDown},
        {"open_babble", babble},
        {"open_noise", sayNoise},
        {"open_empty", saying(Say::Opened, {})},
        {"open_no_reason", saying(Say::Failed, {})},
        {"open_unasked", saying(Say::Progress, Packing().add(0.5))},
        {"open_picture", saying(Say::Pictured, picture(0, 0, 160, 120))},
        {"open_backwards",
         [](const Talk& talk) {
             auto answer = plainAnswer();
             answer.index = FrameIndex({Seconds{0}, Seconds{-1}});
             answer.groupStarts = {0, 0};
             talk.say(Say::Opened, packed(answer));
         }},
    };
    return deeds;
}

const std::map<std::string, Deed>& deedsAtPicture()
{
    static const std::map<std::string, Deed> deeds{
        {"ask_hang", waitForEver},
        {"ask_break", breakDown},
        {"ask_babble", babble},
        {"ask_noise", sayNoise},
        {"ask_no_format", saying(Say::Pictured, picture(5, -1, 160, 120))},
        {"ask_huge", saying(Say::Pictured, picture(5, 0, 1 << 20, 1 << 20))},
        {"ask_no_room", saying(Say::Pictured, picture(5, 0, 160, 120))},
        {"ask_other_frame", saying(Say::Pictured, picture(6, 0, 160, 120))},
        {"ask_none_passed", saying(Say::Pictured, Packing().add(std::int64_t{5}).add(true))},
        {"ask_unwanted", saying(Say::Passed, picture(4, 0, 160, 120))},
        {"ask_palace", saying(Say::NeedRoom, Packing().add(std::uint64_t{1} << 60))},
        {"ask_nothing", saying(Say::NeedRoom, Packing().add(std::uint64_t{0}))},
        {"ask_again_open", saying(Say::Opened, packed(plainAnswer()))},
        {"ask_larger_than_room",
         [](const Talk& talk) {
             talk.say(Say::NeedRoom, Packing().add(std::uint64_t{4096}));
             static_cast<void>(talk.hear());
             talk.say(Say::Pictured, picture(5, 0, 1920, 1080));
         }},
    };
    return deeds;
}

} // namespace

int main()
{
    const Talk talk;
    const auto question = talk.hear();
    const auto asked = openingQuestion(question.body);
    const auto deed = asked ? asked->name.substr(0, asked->name.find('.')) : std::string();
    if (const auto found = deedsAtOpening().find(deed); found != deedsAtOpening().end()) {
        found->second(talk);
        waitForEver(talk);
    }
    talk.say(Say::Opened, packed(plainAnswer()));
    while (true) {
        static_cast<void>(talk.hear());
        deedsAtPicture().at(deed)(talk);
    }
}
