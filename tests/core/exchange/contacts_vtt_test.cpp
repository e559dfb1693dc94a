// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/contacts_vtt.hpp"
#include "tests/catch.hpp"

using namespace latemile;

namespace {

const std::vector<Stance> stances{
    {Foot::Left, Seconds{0.5}, Seconds{0.75}, Origin::Placed, std::nullopt},
    {Foot::Right, Seconds{0.85}, std::nullopt, Origin::Placed, std::nullopt}};

}

TEST_CASE("stances are cues of a WebVTT track", "[exchange][vtt][outside]")
{
    // Outside: W3C, WebVTT: The Web Video Text Tracks Format, 4.1 and 4.3 (from memory).
    const auto text = contactsVtt(stances, steadyClock(Seconds{0}, 1.0, Seconds{10}));
    CHECK(text == "WEBVTT\n"
                  "\n00:00:00.500 --> 00:00:00.750\nLeft foot: on the ground 250 ms\n"
                  "\n00:00:00.850 --> 00:00:00.950\nRight foot: contact\n");
}

TEST_CASE("cues follow a film in slow motion and stay within it", "[exchange][vtt]")
{
    const auto text = contactsVtt(stances, steadyClock(Seconds{0.6}, 8.0, Seconds{2.1}));
    CHECK(text == "WEBVTT\n"
                  "\n00:00:00.000 --> 00:00:01.200\nLeft foot: on the ground 250 ms\n"
                  "\n00:00:02.000 --> 00:00:02.100\nRight foot: contact\n");
    CHECK(contactsVtt(stances, steadyClock(Seconds{3}, 1.0, Seconds{1})) == "WEBVTT\n");
    const std::vector<Stance> late{
        {Foot::Left, Seconds{3661.5}, Seconds{3661.75}, Origin::Placed, std::nullopt}};
    CHECK(
        contactsVtt(late, steadyClock(Seconds{0}, 1.0, Seconds{7200})).find("01:01:01.500 --> ") !=
        std::string::npos);
}
