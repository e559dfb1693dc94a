// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/clip_reader.hpp"

#include "tests/catch.hpp"
#include "tests/core/clip/fixtures.hpp"
#include "tests/core/clip/worker/worker_processes.hpp"

#include <algorithm>
#include <chrono>
#include <future>
#include <map>
#include <optional>
#include <string>

using namespace latemile;
using namespace latemile::test;

namespace {

/// The odd worker, which does what the file's name says.
WorkerTerms odd()
{
    WorkerTerms terms;
    terms.program = LATEMILE_ODD_WORKER;
    terms.longestSilence = std::chrono::seconds(2);
    terms.longestAnswer = std::chrono::seconds(3);
    return terms;
}

Error errorOfOpening(const std::string& deed)
{
    const auto opened = ClipReader::open(written(deed + ".mp4", "Whatever."));
    REQUIRE(!opened);
    return opened.error();
}

Error errorOfFrame(const std::string& deed)
{
    auto opened = ClipReader::open(written(deed + ".mp4", "Whatever."));
    REQUIRE(opened);
    const auto frame = opened->frame({5});
    REQUIRE(!frame);
    return frame.error();
}

void checkSentence(const Error& error, const std::string& file, const std::string& part)
{
    INFO(error.sentence);
    CHECK(error.kind == Error::Kind::Damaged);
    CHECK(error.sentence.find("\"" + file + ".mp4\"") != std::string::npos);
    CHECK(error.sentence.find(part) != std::string::npos);
    CHECK(error.sentence.ends_with('.'));
}

} // namespace

TEST_CASE("answers that cannot be true are refused with one sentence", "[worker][hostile]")
{
    const InWorkers inWorkers(odd());
    const std::string nonsense = "gave answers that cannot be true and was ended";
    for (const std::string deed : {"open_noise", "open_empty", "open_no_reason", "open_unasked",
                                   "open_picture", "open_backwards"}) {
        checkSentence(errorOfOpening(deed), deed, nonsense);
    }
    for (const std::string deed :
         {"ask_noise", "ask_no_format", "ask_huge", "ask_no_room", "ask_other_frame",
          "ask_none_passed", "ask_unwanted", "ask_palace", "ask_nothing", "ask_again_open",
          "ask_larger_than_room"}) {
        checkSentence(errorOfFrame(deed), deed, nonsense);
    }
    CHECK(children().empty());
}

TEST_CASE("a worker that never answers, or never comes to the point, is given up",
          "[worker][hostile]")
{
    const InWorkers inWorkers(odd());
    const auto opening = [](const std::filesystem::path& file) {
        const auto opened = ClipReader::open(file);
        return opened ? std::nullopt : std::optional(opened.error());
    };
    const auto asking = [](const std::filesystem::path& file) {
        auto opened = ClipReader::open(file);
        const auto frame = opened ? opened->frame({5}) : Outcome<Frame>();
        return frame ? std::nullopt : std::optional(frame.error());
    };
    // Side by side, since each is waited for as long as the terms say.
    std::map<std::string, std::future<std::optional<Error>>> deeds;
    for (const std::string deed : {"open_hang", "open_babble"}) {
        deeds[deed] = std::async(std::launch::async, opening, written(deed + ".mp4", "Whatever."));
    }
    for (const std::string deed : {"ask_hang", "ask_babble"}) {
        deeds[deed] = std::async(std::launch::async, asking, written(deed + ".mp4", "Whatever."));
    }
    for (auto& [deed, given] : deeds) {
        INFO(deed);
        const auto error = given.get();
        REQUIRE(error);
        checkSentence(*error, deed, "took too long and was given up");
    }
    CHECK(children().empty());
}

TEST_CASE("a file that breaks every decoder down costs one sentence", "[worker][hostile]")
{
    const InWorkers inWorkers(odd());
    checkSentence(errorOfOpening("open_break"), "open_break", "broke down on what the file holds");
    auto reader = ClipReader::open(written("ask_break.mp4", "Whatever.")).value();
    checkSentence(reader.frame({5}).error(), "ask_break",
                  "Frame 5 of \"ask_break.mp4\" breaks its decoder down and cannot be shown");
    // What is decoded after it is not tried again; what comes before it is.
    const auto before = std::chrono::steady_clock::now();
    checkSentence(reader.frame({6}).error(), "ask_break", "Frame 6 of");
    CHECK(children().empty());
    CHECK(std::chrono::steady_clock::now() - before < std::chrono::seconds(1));
    checkSentence(reader.frame({2}).error(), "ask_break", "Frame 2 of");
}

TEST_CASE("an opening that hangs can be stopped", "[worker][hostile]")
{
    auto terms = odd();
    terms.longestSilence = std::chrono::seconds(60);
    const InWorkers inWorkers(terms);
    ClipOptions options;
    options.goOn = [](double) { return false; };
    const auto start = std::chrono::steady_clock::now();
    const auto opened = ClipReader::open(written("open_hang.mp4", "Whatever."), options);
    REQUIRE(!opened);
    CHECK(opened.error().kind == Error::Kind::Cancelled);
    CHECK(std::chrono::steady_clock::now() - start < std::chrono::seconds(10));
}

TEST_CASE("a decoder that cannot be started is one sentence", "[worker][hostile]")
{
    WorkerTerms terms;
    terms.program = "/nowhere/latemile";
    const InWorkers inWorkers(terms);
    const auto opened = ClipReader::open(written("open_any.mp4", "Whatever."));
    REQUIRE(!opened);
    CHECK(opened.error().sentence ==
          "The decoder of clips could not be started; close other programs and open "
          "\"open_any.mp4\" again.");
}
